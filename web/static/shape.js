"use strict";

/* A shape is drawn by clicking its corners on the map; the field holds them as text. */
document.addEventListener("map-built", (built) => {
  const button = document.querySelector("[data-shape]");
  const field = button && document.getElementById(button.dataset.shape);
  if (!field) {
    return;
  }
  const map = built.detail;
  const clear = document.querySelector("[data-shape-clear]");
  const said = document.getElementById("shape-said");
  const layer = L.layerGroup().addTo(map);

  const corners = () =>
    field.value
      .split(";")
      .map((corner) => corner.split(",").map(Number))
      .filter(([lat, lng]) => Math.abs(lat) <= 90 && Math.abs(lng) <= 180);

  const drawing = () => button.getAttribute("aria-pressed") === "true";

  const draw = () => {
    layer.clearLayers();
    const points = corners();
    const look = { className: "shape", interactive: false, weight: 2 };
    if (points.length > 2) {
      layer.addLayer(L.polygon(points, look));
    } else if (points.length > 1) {
      layer.addLayer(L.polyline(points, look));
    }
    for (const point of points) {
      layer.addLayer(L.circleMarker(point, { ...look, className: "corner", radius: 4 }));
    }
    clear.hidden = field.value.trim() === "";
    if (drawing()) {
      said.textContent =
        points.length < 3
          ? `Click the corners: ${points.length} of at least 3.`
          : `${points.length} corners. Press “Use the shape” when it is done.`;
    }
  };

  const changed = () => field.dispatchEvent(new Event("change", { bubbles: true }));

  button.hidden = false;
  field.addEventListener("input", draw);
  field.addEventListener("change", draw);
  button.addEventListener("click", () => {
    const on = !drawing();
    button.setAttribute("aria-pressed", String(on));
    button.textContent = on ? "Use the shape" : "Draw it on the map";
    map.getContainer().classList.toggle("is-picking", on);
    said.textContent = "";
    if (on) {
      field.value = "";
      document.dispatchEvent(new CustomEvent("show-map"));
      map.getContainer().scrollIntoView({ block: "nearest" });
      draw();
    } else {
      changed();
    }
  });
  clear.addEventListener("click", () => {
    field.value = "";
    button.focus();
    changed();
  });
  map.on("click", (event) => {
    if (drawing()) {
      const point = event.latlng.wrap();
      const corner = `${point.lat.toFixed(6)},${point.lng.toFixed(6)}`;
      field.value = field.value.trim() === "" ? corner : `${field.value};${corner}`;
      draw();
    }
  });
  draw();
});
