"use strict";

/* Maps are built from the list beside them: every element with data-place is a marker. */
(() => {
  const WEDGE_PX = 46;
  const VIEW_PX = 92;
  const SUN_PX = 64;
  const NARROWEST_DEG = 7;
  const maps = new Map();

  const offset = (map, centre, bearingDeg, px) => {
    const origin = map.project(centre);
    const angle = (bearingDeg * Math.PI) / 180;
    return map.unproject(origin.add([px * Math.sin(angle), -px * Math.cos(angle)]));
  };

  const wedge = (map, centre, bearingDeg, spreadDeg, px) => {
    const half = Math.max(spreadDeg, NARROWEST_DEG);
    const points = [centre];
    for (let i = -8; i <= 8; i += 1) {
      points.push(offset(map, centre, bearingDeg + (i / 8) * half, px));
    }
    return L.polygon(points, { className: "wedge", interactive: false, weight: 1.5 });
  };

  const facingsOf = (element) =>
    (element.dataset.facings || "")
      .split(";")
      .filter(Boolean)
      .map((pair) => pair.split(":").map(Number));

  const drawDirections = (state) => {
    state.directions.clearLayers();
    for (const place of state.places) {
      for (const [bearing, spread] of facingsOf(place.element)) {
        const px = place.element.hasAttribute("data-about") ? VIEW_PX : WEDGE_PX;
        state.directions.addLayer(wedge(state.map, place.point, bearing, spread, px));
      }
      if (place.element.dataset.sun) {
        const farPx = place.element.hasAttribute("data-about") ? VIEW_PX + 14 : SUN_PX;
        const end = offset(state.map, place.point, Number(place.element.dataset.sun), farPx);
        const above = place.element.dataset.up === "true";
        state.directions.addLayer(
          L.polyline([place.point, end], {
            className: above ? "sunline" : "sunline is-below",
            interactive: false,
            weight: 2,
          }),
        );
        state.directions.addLayer(
          L.circleMarker(end, {
            className: above ? "sundisc" : "sundisc is-below",
            interactive: false,
            radius: 5,
            weight: 1.5,
          }),
        );
      }
    }
  };

  const mark = (state, element, on) => {
    const place = state.places.find((p) => p.element === element);
    if (!place) {
      return;
    }
    element.classList.toggle("is-marked", on);
    place.marker.getElement()?.classList.toggle("is-marked", on);
    place.marker.setZIndexOffset(on ? 1000 : 0);
  };

  const marker = (state, element, point) => {
    const number = element.dataset.number || "";
    const kind = element.dataset.kind || (number ? "numbered" : "plain");
    const name = element.dataset.name || "";
    const span = document.createElement("span");
    span.textContent = number;
    const made = L.marker(point, {
      title: name,
      icon: L.divIcon({ className: `pin pin-${kind}`, html: span, iconSize: null }),
    }).addTo(state.markers);
    made.getElement()?.setAttribute("aria-label", number ? `${number}: ${name}` : name);
    made.on("click keypress", (event) => {
      if (event.originalEvent && event.originalEvent.type === "keypress" && event.originalEvent.key !== "Enter") {
        return;
      }
      document.dispatchEvent(new CustomEvent("show-list"));
      const target = element.hidden ? element.closest("li, section") : element;
      target.scrollIntoView({ block: "center", behavior: "smooth" });
      (target.querySelector("h3 a, a") || target).focus({ preventScroll: true });
    });
    made.on("mouseover", () => mark(state, element, true));
    made.on("mouseout", () => mark(state, element, false));
    return made;
  };

  const circle = (state) => {
    const text = document.querySelector("[data-circle]")?.dataset.circle;
    if (!text) {
      return null;
    }
    const [lat, lng, radius] = text.split(",").map(Number);
    const drawn = L.circle([lat, lng], { radius, className: "within", interactive: false, weight: 1.5 });
    drawn.addTo(state.markers);
    return L.latLng(lat, lng).toBounds(2 * radius);
  };

  const fill = (state) => {
    state.markers.clearLayers();
    state.places = [];
    for (const element of document.querySelectorAll("[data-place]")) {
      const point = L.latLng(Number(element.dataset.lat), Number(element.dataset.lon));
      const place = { element, point, marker: null };
      place.marker = marker(state, element, point);
      state.places.push(place);
      for (const type of ["mouseenter", "focusin"]) {
        element.addEventListener(type, () => mark(state, element, true));
      }
      for (const type of ["mouseleave", "focusout"]) {
        element.addEventListener(type, () => mark(state, element, false));
      }
    }
    const around = circle(state);
    fit(state, around);
    drawDirections(state);
  };

  /* What the map is about; everything when nothing is marked as such. */
  const aboutOf = (state) => {
    const about = state.places.filter((place) => place.element.hasAttribute("data-about"));
    return about.length ? about : state.places;
  };

  const fit = (state, around) => {
    const bounds = L.latLngBounds(aboutOf(state).map((place) => place.point));
    if (around) {
      bounds.extend(around);
    }
    if (bounds.isValid()) {
      state.map.fitBounds(bounds, { padding: [70, 70], maxZoom: 18, animate: false });
    } else if (window.basemap.bounds().isValid()) {
      state.map.fitBounds(window.basemap.bounds(), { animate: false });
    } else {
      state.map.setView([0, 0], 1, { animate: false });
    }
  };

  const build = (element) => {
    const map = L.map(element, {
      zoomSnap: window.basemap.zoomSnap(),
      zoomControl: false,
      maxZoom: 20,
      minZoom: 1,
      worldCopyJump: true,
    });
    map.setView([0, 0], 1);
    map.attributionControl.setPrefix("");
    L.control.zoom({ position: "topright" }).addTo(map);
    L.control.scale({ imperial: false }).addTo(map);
    window.basemap.add(map);
    const state = {
      map,
      places: [],
      directions: L.layerGroup().addTo(map),
      markers: L.featureGroup().addTo(map),
      picked: L.layerGroup().addTo(map),
    };
    element.setAttribute("role", "region");
    element.setAttribute("aria-label", element.dataset.label || "Map");
    map.on("zoomend", () => drawDirections(state));
    maps.set(element, state);
    fill(state);
    const field = document.getElementById(element.dataset.field);
    if (field) {
      placeField(state, field);
    } else {
      pickers(state);
    }
    document.dispatchEvent(new CustomEvent("map-built", { detail: map }));
  };

  /* A map that belongs to a field of a place: every click fills it. */
  const placeField = (state, field) => {
    state.map.getContainer().classList.add("is-picking");
    field.addEventListener("change", () => drawPicked(state, field));
    drawPicked(state, field);
    state.map.on("click", (event) => {
      const point = event.latlng.wrap();
      field.value = `${point.lat.toFixed(6)},${point.lng.toFixed(6)}`;
      field.dispatchEvent(new Event("change", { bubbles: true }));
    });
  };

  /* Where a field's bearing starts, when it holds a bearing and no place. */
  const fromOf = (field) => {
    const text = document.querySelector(`[data-pick="${field.id}"]`)?.dataset.from;
    return text ? L.latLng(text.split(",").map(Number)) : null;
  };

  /* The map keeps angles, so that what is seen on it is the bearing. */
  const bearingOf = (map, from, to) => {
    const way = map.project(to).subtract(map.project(from));
    return ((Math.atan2(way.x, -way.y) * 180) / Math.PI + 360) % 360;
  };

  /* What is typed or clicked into a field of a place. */
  const drawPicked = (state, field) => {
    state.picked.clearLayers();
    const from = field.value !== "" && fromOf(field);
    if (from) {
      state.picked.addLayer(
        L.polyline([from, offset(state.map, from, Number(field.value) || 0, SUN_PX)], {
          className: "picked",
          interactive: false,
          weight: 3,
        }),
      );
    }
    const [lat, lng] = field.value.split(",").map(Number);
    if (field.value.includes(",") && Math.abs(lat) <= 90 && Math.abs(lng) <= 180) {
      state.picked.addLayer(
        L.circleMarker([lat, lng], { className: "picked", interactive: false, radius: 9, weight: 3 }),
      );
    }
  };

  /* A button that takes a place from the next click on the map. */
  const pickers = (state) => {
    for (const button of document.querySelectorAll("[data-pick]")) {
      button.hidden = false;
      const field = document.getElementById(button.dataset.pick);
      field.addEventListener("change", () => drawPicked(state, field));
      drawPicked(state, field);
      button.addEventListener("click", () => {
        const on = button.getAttribute("aria-pressed") !== "true";
        button.setAttribute("aria-pressed", String(on));
        state.map.getContainer().classList.toggle("is-picking", on);
        if (on) {
          document.dispatchEvent(new CustomEvent("show-map"));
          state.map.getContainer().scrollIntoView({ block: "nearest" });
        }
      });
      state.map.on("click", (event) => {
        if (button.getAttribute("aria-pressed") !== "true") {
          return;
        }
        const point = event.latlng.wrap();
        const from = fromOf(field);
        field.value = from
          ? bearingOf(state.map, from, point).toFixed(1)
          : `${point.lat.toFixed(6)},${point.lng.toFixed(6)}`;
        button.setAttribute("aria-pressed", "false");
        state.map.getContainer().classList.remove("is-picking");
        field.dispatchEvent(new Event("change", { bubbles: true }));
      });
    }
  };

  document.querySelectorAll("[data-map]").forEach(build);

  /* The map in an element, for scripts that draw on it. */
  window.scoutmap = (element) => maps.get(element).map;

  document.addEventListener("htmx:afterSettle", (event) => {
    for (const [element, state] of maps) {
      if (!element.isConnected) {
        state.map.remove();
        maps.delete(element);
      }
    }
    if (["answers", "spot-rows", "sighted"].includes(event.target.id)) {
      maps.forEach(fill);
    }
    for (const element of document.querySelectorAll("[data-map]")) {
      if (!maps.has(element)) {
        build(element);
      }
    }
  });

  /* A map in something folded has no size until it is unfolded. */
  document.addEventListener(
    "toggle",
    (event) => {
      for (const [element, state] of maps) {
        if (event.target.open && event.target.contains(element)) {
          state.map.invalidateSize();
          fit(state, null);
          drawDirections(state);
        }
      }
    },
    true,
  );

  document.addEventListener("map-shown", () => {
    for (const state of maps.values()) {
      state.map.invalidateSize();
      fit(state, null);
      drawDirections(state);
    }
  });
})();
