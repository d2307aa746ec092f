"use strict";

/* Turns the drawing with the phone where the phone has a compass. Its north is the magnetic one;
   the difference to true north comes with each spot. */
(() => {
  const at = (id) => document.getElementById(id);
  if (!at("compass")) {
    return;
  }
  /* A compass that is off by more is called not calibrated; degrees, own choice. */
  const MOST_ERROR_DEG = 20;
  const SILENCE_MS = 3000;
  const NS = "http://www.w3.org/2000/svg";
  let heading = null;
  let errorDeg = null;
  let on = false;

  const turn = (degrees) => ((degrees % 360) + 360) % 360;

  /* Where the upper edge points, or the camera when the phone is held upright: the longer of the
     two on the ground (W3C, Device Orientation: Z-X'-Y'' rotation, alpha counter-clockwise). */
  const headingOf = ({ alpha, beta, gamma }) => {
    const rad = Math.PI / 180;
    const [a, b, g] = [alpha * rad, beta * rad, gamma * rad];
    const edge = [-Math.sin(a) * Math.cos(b), Math.cos(a) * Math.cos(b)];
    const camera = [
      -Math.cos(a) * Math.sin(g) - Math.sin(a) * Math.sin(b) * Math.cos(g),
      -Math.sin(a) * Math.sin(g) + Math.cos(a) * Math.sin(b) * Math.cos(g),
    ];
    const [east, north] = Math.hypot(...edge) >= Math.hypot(...camera) ? edge : camera;
    return turn(Math.atan2(east, north) / rad);
  };

  const draw = () => {
    const shown = window.field.here?.shown();
    if (!shown) {
      return;
    }
    const declination = shown.spot.declinationDeg;
    const trueDeg = heading === null ? null : turn(heading + (declination ?? 0));
    at("compass-card").setAttribute("transform", `rotate(${-(trueDeg ?? 0)})`);
    at("compass-sun").setAttribute("transform", `rotate(${shown.sunDeg ?? 0})`);
    at("compass-sun").classList.toggle("is-down", shown.down || shown.sunDeg === null);
    at("compass-facings").replaceChildren(
      ...shown.spot.facings.map((facing) => {
        const line = document.createElementNS(NS, "line");
        line.setAttribute("class", "towards");
        line.setAttribute("y1", "-18");
        line.setAttribute("y2", "-62");
        line.setAttribute("transform", `rotate(${facing.deg})`);
        return line;
      }),
    );
    if (trueDeg === null) {
      return;
    }
    const words = window.field.here.bearing;
    const aside = shown.sunDeg === null ? null : turn(shown.sunDeg - trueDeg + 180) - 180;
    const sun =
      aside === null
        ? ""
        : ` The sun stands ${Math.abs(Math.round(aside))}° to the ${aside < 0 ? "left" : "right"}.`;
    const north =
      declination === null
        ? "magnetic: no model of the difference to true north holds for this day"
        : `true; the compass is turned by ${declination.toFixed(1)}°`;
    const doubt =
      errorDeg === null
        ? " How exact it is the phone does not say; iron nearby turns it."
        : errorDeg < 0 || errorDeg > MOST_ERROR_DEG
          ? " Not calibrated: move the phone in the shape of an 8, away from iron."
          : ` Give or take ${Math.round(errorDeg)}°.`;
    at("compass-said").textContent = `The phone points ${words(trueDeg)} (${north}).${sun}${doubt}`;
  };

  const heard = (event) => {
    if (Number.isFinite(event.webkitCompassHeading)) {
      heading = event.webkitCompassHeading;
      errorDeg = event.webkitCompassAccuracy;
    } else if (event.absolute && event.alpha !== null && event.beta !== null) {
      heading = headingOf(event);
      errorDeg = null;
    } else {
      return;
    }
    draw();
  };

  const start = async () => {
    const kind = window.DeviceOrientationEvent;
    if (kind?.requestPermission && (await kind.requestPermission().catch(() => "")) !== "granted") {
      at("compass-said").textContent = "North is up: the phone may not tell its compass.";
      return;
    }
    if (!on) {
      on = true;
      window.addEventListener("deviceorientationabsolute", heard);
      window.addEventListener("deviceorientation", heard);
    }
    at("compass-said").textContent = "Listening to the compass …";
    setTimeout(() => {
      if (heading === null) {
        at("compass-said").textContent = "North is up: this phone or browser has no compass.";
      }
    }, SILENCE_MS);
  };

  at("compass-on").addEventListener("click", start);
  document.addEventListener("field:here", draw);
})();
