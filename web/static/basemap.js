"use strict";

/* What lies under the places: the region's map where the ledger has one, else a graticule. */
(() => {
  const FIRST_ZOOM = 10;
  const LAST_ZOOM = 19;
  const dark = window.matchMedia("(prefers-color-scheme: dark)");

  const boxes = () =>
    (document.body.dataset.covered || "")
      .split(";")
      .filter(Boolean)
      .map((box) => {
        const [south, west, north, east] = box.split(",").map(Number);
        return L.latLngBounds([south, west], [north, east]);
      });

  const bounds = () => boxes().reduce((all, box) => all.extend(box), L.latLngBounds([]));

  const isCovered = (map) =>
    map.getZoom() >= FIRST_ZOOM && boxes().some((box) => box.contains(map.getCenter()));

  /* Attributions are taken as HTML, so the licence goes through an element's text. */
  const attribution = () => {
    const words = document.createElement("span");
    const source = document.createElement("a");
    source.href = "https://www.openstreetmap.org/copyright";
    source.textContent = "OpenStreetMap contributors";
    words.append("Map data © ", source, `, ${document.body.dataset.licence}`);
    return words.innerHTML;
  };

  const add = (map) => {
    const { tiles } = document.body.dataset;
    window.graticule(map, isCovered);
    if (!tiles) {
      map.attributionControl.addAttribution("Your own positions, WGS 84. No base map.");
      return;
    }
    const url = () => `${tiles}&look=${dark.matches ? "dark" : "light"}`;
    const layer = L.tileLayer(url(), {
      minZoom: FIRST_ZOOM,
      maxZoom: map.getMaxZoom(),
      maxNativeZoom: LAST_ZOOM,
      bounds: bounds(),
      attribution: attribution(),
    });
    const repaint = () => layer.setUrl(url());
    dark.addEventListener("change", repaint);
    map.on("unload", () => dark.removeEventListener("change", repaint));
    layer.addTo(map);
  };

  window.basemap = {
    add,
    bounds,
    /* Tiles are drawn for whole zooms. */
    zoomSnap: () => (document.body.dataset.tiles ? 1 : 0.5),
  };
})();
