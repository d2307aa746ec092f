"use strict";

/* The light here and now, looked up in what the server worked out for each minute of the day. */
(() => {
  const at = (id) => document.getElementById(id);
  if (!at("here-spot")) {
    window.field.here = null;
    return;
  }
  const EARTH_M = 6371000;
  const AHEAD_MIN = 60;
  const REACH = {
    direct: "direct sun",
    shade: "open shade: something stands before it",
    "not-certain": "not certain: the sun is too close to the skyline to tell",
    "not-known": "not known: nothing sure is known of what stands there",
    down: "below the horizon",
  };
  let taken = null;
  let chosen = null;
  let shown = null;

  const clock = () =>
    new Intl.DateTimeFormat("en-GB", {
      timeZone: taken.zone,
      hour: "2-digit",
      minute: "2-digit",
      hourCycle: "h23",
    });
  const hour = (minute) => clock().format(new Date(taken.from + minute * 60000));

  const inRuns = (runs, minute) => {
    let found = 0;
    while (found + 1 < runs.length && runs[found + 1][0] <= minute) {
      found++;
    }
    return found;
  };

  /* A session may go on after midnight: of two such times the one that follows noon. */
  const minuteOf = (time) => {
    const noon = Math.min(720, taken.minutes);
    for (let tried = 0; tried < taken.minutes; tried++) {
      const minute = (noon + tried) % taken.minutes;
      if (hour(minute) === time) {
        return minute;
      }
    }
    return -1;
  };

  /* Swedish writes dates as ISO 8601 does. */
  const dateOf = (minute) =>
    new Intl.DateTimeFormat("sv-SE", {
      timeZone: taken.zone,
      year: "numeric",
      month: "2-digit",
      day: "2-digit",
    }).format(new Date(taken.from + minute * 60000));

  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  const deg = (tenths) => Math.round(tenths / 10) % 360;
  const POINTS = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"];
  const bearing = (degrees) =>
    `${POINTS[Math.round(degrees / 45) % 8]} ${Math.round(degrees) % 360}°`;

  /* What there is in this minute, then each change within the hour. */
  const course = (runs, minute, words) => {
    const first = inRuns(runs, minute);
    const parts = [capital(words(runs[first][1]))];
    for (let next = first + 1; next < runs.length && runs[next][0] <= minute + AHEAD_MIN; next++) {
      parts.push(`${hour(runs[next][0])} ${words(runs[next][1])}`);
    }
    return parts;
  };

  const row = (facing, minute) => {
    const item = document.createElement("li");
    const inner = document.createElement("div");
    const [now, ...later] = course(facing.lights, minute, (code) => taken.lights[code]);
    const head = document.createElement("p");
    const strong = document.createElement("strong");
    strong.textContent = now;
    head.append(strong, `, looking ${facing.words}${facing.planned ? ", as planned" : ""}`);
    const next = document.createElement("p");
    next.className = "small";
    next.textContent = later.length ? `Then ${later.join(", ")}` : "The same for the next hour";
    inner.append(head, next);
    item.append(inner);
    return item;
  };

  const mind = (spot, minute) => {
    const low = spot.altitudeTenths[minute] <= taken.lowSunTenths;
    const towards = spot.facings.some(
      (facing) => facing.lights[inRuns(facing.lights, minute)][1] === "backlit",
    );
    const words = [...spot.hazards];
    if (low && towards) {
      words.unshift(taken.sunCare);
    }
    if (spot.cautions) {
      words.push(spot.cautions);
    }
    at("here-mind").hidden = words.length === 0;
    at("here-mind")
      .querySelector("ul")
      .replaceChildren(
        ...words.map((text) => {
          const item = document.createElement("li");
          item.className = "asis";
          item.textContent = text;
          return item;
        }),
      );
  };

  const show = () => {
    if (!taken) {
      return;
    }
    const spot = taken.spots.find((one) => String(one.id) === at("here-spot").value);
    const time = at("here-at").value;
    const present = Math.floor((Date.now() - taken.from) / 60000);
    const minute = time ? minuteOf(time) : present;
    chosen = spot;
    at("here-name").textContent = spot.name;
    const known = minute >= 0 && minute < taken.minutes;
    const date = known ? dateOf(minute) : taken.date;
    const day = new Date(`${date}T12:00:00Z`).toUTCString().slice(0, 16);
    at("here-time").textContent = known ? `${hour(minute)}, ${day}` : "not on the day of this plan";
    at("here-said").textContent = known
      ? ""
      : `This is the light of ${day}. Choose a time of that day.`;
    const down = known && spot.altitudeTenths[minute] < 0;
    const height = known ? Math.abs(spot.altitudeTenths[minute] / 10).toFixed(1) : "";
    at("here-sun").textContent = known
      ? `${bearing(deg(spot.azimuthTenths[minute]))}, ${height}° ${down ? "below the horizon" : "high"}`
      : "–";
    at("here-reach").textContent = known
      ? course(spot.direct, minute, (code) => REACH[code]).join("; then ")
      : "–";
    at("here-facings").replaceChildren(
      ...(known ? spot.facings.map((facing) => row(facing, minute)) : []),
    );
    if (known && spot.facings.length === 0) {
      at("here-said").textContent = "No facing is known here, so no class of light can be told.";
    }
    if (known) {
      mind(spot, minute);
    }
    shown = { spot, sunDeg: known ? spot.azimuthTenths[minute] / 10 : null, down };
    document.dispatchEvent(new CustomEvent("field:here"));
  };

  const distanceM = (spot, place) => {
    const rad = Math.PI / 180;
    const across = (spot.lon - place.longitude) * rad * Math.cos(place.latitude * rad);
    return EARTH_M * Math.hypot(across, (spot.lat - place.latitude) * rad);
  };

  const nearest = () => {
    if (!navigator.geolocation || !taken) {
      at("here-said").textContent = "This phone does not say where it is. Choose the spot.";
      return;
    }
    at("here-said").textContent = "Asking the phone where it is …";
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        const spots = [...taken.spots];
        spots.sort((one, other) => distanceM(one, coords) - distanceM(other, coords));
        at("here-spot").value = String(spots[0].id);
        show();
        const away = Math.round(distanceM(spots[0], coords));
        at("here-said").textContent =
          `Nearest: ${spots[0].name}, ${away} m from here, give or take ${Math.round(coords.accuracy)} m.`;
      },
      (problem) => {
        at("here-said").textContent =
          problem.code === problem.PERMISSION_DENIED
            ? "The phone may not say where it is. Choose the spot."
            : "The phone does not know where it is. Choose the spot.";
      },
      { enableHighAccuracy: true, timeout: 15000, maximumAge: 30000 },
    );
  };

  const load = async () => {
    try {
      const answer = await fetch(`/field/package${document.body.dataset.query}`);
      taken = answer.ok ? await answer.json() : null;
    } catch {
      taken = null;
    }
    if (taken) {
      show();
    } else {
      at("here-said").textContent = "There is no network, and this was not taken along.";
    }
  };

  at("here-spot").addEventListener("change", show);
  at("here-at").addEventListener("change", show);
  at("here-now").addEventListener("click", () => {
    at("here-at").value = "";
    show();
  });
  at("here-nearest").addEventListener("click", nearest);
  setInterval(() => !at("here-at").value && show(), 20000);
  load();

  window.field.here = { shown: () => shown, spot: () => chosen, bearing };
})();
