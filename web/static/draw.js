"use strict";

/* Draws what stands in the way, and lays the shadows of an hour on the map. */
(() => {
  const map = window.scoutmap(document.getElementById("drawmap"));
  const form = document.getElementById("drawform");
  const corners = document.getElementById("f-corners");
  const width = document.getElementById("f-width");
  const shadowForm = document.getElementById("shadowform");
  const words = document.getElementById("shadowwords");
  const slide = document.getElementById("f-minute");
  const at = document.getElementById("f-at");

  const shadows = L.geoJSON(null, { className: "shadow", interactive: false }).addTo(map);
  const drawn = L.featureGroup().addTo(map);
  const pen = L.featureGroup().addTo(map);

  /* What was drawn before; names go in as text. */
  for (const row of document.querySelectorAll("[data-drawn]")) {
    if (!row.dataset.current) {
      const name = document.createElement("span");
      name.textContent = row.dataset.name;
      L.geoJSON(JSON.parse(row.dataset.drawn), { className: "drawn", weight: 1.5, bubblingMouseEvents: true })
        .bindTooltip(name)
        .addTo(drawn);
    }
  }

  const shape = () => form.querySelector("input[name=shape]:checked")?.value;

  const points = () =>
    corners.value
      .split("\n")
      .map((line) => line.split(",").map((part) => (part.trim() === "" ? NaN : Number(part))))
      .filter((pair) => pair.length === 2 && Math.abs(pair[0]) <= 90 && Math.abs(pair[1]) <= 180);

  /* Metres as pixels at the middle of the map. */
  const px = (metres) => {
    const middle = map.getCenter();
    const aside = middle.toBounds(2 * metres).getEast();
    return map.project([middle.lat, aside]).x - map.project(middle).x;
  };

  const sketch = () => {
    const kind = shape();
    const places = points();
    pen.clearLayers();
    document.getElementById("widthfield").hidden = kind === "outline";
    const wide = Number(width.value.replace(",", ".")) || 0;
    if (kind === "line" && places.length > 1) {
      L.polyline(places, { className: "pen pen-row", weight: Math.max(1, px(wide)), interactive: false }).addTo(pen);
      L.polyline(places, { className: "pen pen-row", weight: 2, opacity: 1, interactive: false }).addTo(pen);
    } else if (kind === "crown" && places.length) {
      L.circle(places[0], { radius: wide / 2, className: "pen", weight: 2, interactive: false }).addTo(pen);
    } else if (places.length > 1) {
      L.polygon(places, { className: "pen", weight: 2, interactive: false }).addTo(pen);
    }
    for (const place of places) {
      L.circleMarker(place, { className: "pen-corner", radius: 4, weight: 2, interactive: false }).addTo(pen);
    }
    const said = places.length === 1 ? "1 corner" : `${places.length} corners`;
    form.querySelector("[data-pen-said]").textContent = kind === "crown" ? "" : said;
  };

  map.on("click", (event) => {
    const point = event.latlng.wrap();
    const line = `${point.lat.toFixed(7)},${point.lng.toFixed(7)}`;
    const before = corners.value.trimEnd();
    corners.value = before === "" || shape() === "crown" ? line : `${before}\n${line}`;
    sketch();
  });

  document.getElementById("pen").hidden = false;
  form.addEventListener("click", (event) => {
    const what = event.target.dataset.pen;
    if (what) {
      corners.value = what === "over" ? "" : corners.value.trimEnd().split("\n").slice(0, -1).join("\n");
      sketch();
    }
  });
  for (const type of ["input", "change"]) {
    form.addEventListener(type, sketch);
  }
  map.on("zoomend", sketch);
  sketch();
  if (points().length && pen.getBounds().isValid()) {
    map.fitBounds(pen.getBounds(), { padding: [70, 70], maxZoom: 19, animate: false });
  }

  /* Shadows follow the map and the hour once they have been asked for; the newest answer counts. */
  let asked = Boolean(shadowForm.dataset.asked);
  let asking = null;
  let waiting = 0;

  const ask = async () => {
    asking?.abort();
    asking = new AbortController();
    const box = map.getBounds();
    const sides = [box.getSouth(), box.getWest(), box.getNorth(), box.getEast()];
    const query = new URLSearchParams(new FormData(shadowForm));
    query.set("box", sides.map((side) => side.toFixed(7)).join(","));
    try {
      const answer = await fetch(`/surroundings/shadows?${query}`, { signal: asking.signal });
      const found = await answer.json();
      shadows.clearLayers();
      shadows.addData(found);
      words.textContent = found.words;
    } catch (problem) {
      if (problem.name !== "AbortError") {
        shadows.clearLayers();
        words.textContent = "The shadows could not be fetched: is the ledger still being served?";
      }
    }
  };
  const askSoon = () => {
    if (asked) {
      clearTimeout(waiting);
      waiting = setTimeout(ask, 150);
    }
  };

  const minuteOf = (hour) => {
    const [hours, minutes] = hour.split(":").map(Number);
    return hours * 60 + minutes;
  };
  const told = () => slide.setAttribute("aria-valuetext", at.value);
  document.getElementById("hourslide").hidden = false;
  slide.value = String(minuteOf(at.value));
  told();
  slide.addEventListener("input", () => {
    const minute = Number(slide.value);
    const two = (number) => String(number).padStart(2, "0");
    at.value = `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
    told();
    asked = true;
    askSoon();
  });
  shadowForm.addEventListener("change", (event) => {
    if (event.target !== slide && at.value) {
      slide.value = String(minuteOf(at.value));
      told();
      askSoon();
    }
  });
  shadowForm.addEventListener("submit", (event) => {
    event.preventDefault();
    asked = true;
    ask();
  });
  map.on("moveend", askSoon);
  askSoon();
})();
