"use strict";

/* Lines of latitude and longitude where there is no base map, at a distance that suits the zoom. */
(() => {
  const WISHED_PX = 110;

  const niceStep = (roughDeg) => {
    const power = 10 ** Math.floor(Math.log10(roughDeg));
    const digit = [1, 2, 5, 10].find((d) => d * power >= roughDeg);
    return digit * power;
  };

  const decimals = (stepDeg) => Math.max(0, Math.ceil(-Math.log10(stepDeg) - 1e-9));

  const label = (valueDeg, stepDeg, positive, negative) =>
    `${Math.abs(valueDeg).toFixed(decimals(stepDeg))}° ${valueDeg < 0 ? negative : positive}`;

  const draw = (map, group, isCovered) => {
    group.clearLayers();
    if (isCovered(map)) {
      return;
    }
    const bounds = map.getBounds();
    const size = map.getSize();
    if (size.x === 0 || size.y === 0) {
      return;
    }
    const stepDeg = niceStep(((bounds.getEast() - bounds.getWest()) * WISHED_PX) / size.x);
    const line = (points) =>
      group.addLayer(L.polyline(points, { className: "graticule", weight: 1, interactive: false }));
    /* Corners belong to the controls. */
    const free = (point, side) => {
      const at = map.latLngToContainerPoint(point);
      return side === "left" ? at.y > 20 && at.y < size.y - 45 : at.x > 5 && at.x < size.x - 90;
    };
    const word = (point, text, side) =>
      free(point, side) &&
      group.addLayer(
        L.marker(point, {
          interactive: false,
          keyboard: false,
          icon: L.divIcon({ className: `degree degree-${side}`, html: text, iconSize: null }),
        }),
      );
    const first = (fromDeg) => Math.ceil(fromDeg / stepDeg);
    const corner = map.containerPointToLatLng([0, size.y]);
    for (let i = first(bounds.getSouth()); i * stepDeg < bounds.getNorth(); i += 1) {
      const lat = i * stepDeg;
      line([
        [lat, bounds.getWest()],
        [lat, bounds.getEast()],
      ]);
      word([lat, corner.lng], label(lat, stepDeg, "N", "S"), "left");
    }
    for (let i = first(bounds.getWest()); i * stepDeg < bounds.getEast(); i += 1) {
      const lng = i * stepDeg;
      line([
        [bounds.getSouth(), lng],
        [bounds.getNorth(), lng],
      ]);
      word([bounds.getNorth(), lng], label(lng, stepDeg, "E", "W"), "top");
    }
  };

  window.graticule = (map, isCovered) => {
    const group = L.layerGroup().addTo(map);
    map.on("moveend resize", () => draw(map, group, isCovered));
    return group;
  };
})();
