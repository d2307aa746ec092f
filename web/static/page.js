"use strict";

(() => {
  const narrow = window.matchMedia("(max-width: 63.99rem)");

  /* The question folds away on a phone once it has been asked. */
  const fold = document.querySelector(".fold");
  const foldToFit = () => {
    if (fold) {
      fold.open = !narrow.matches || !document.querySelector("#answers > .cards");
    }
  };
  foldToFit();
  narrow.addEventListener("change", foldToFit);

  /* List or map on a phone. */
  const show = (what) => {
    document.body.classList.toggle("shows-map", what === "map");
    for (const button of document.querySelectorAll("[data-show]")) {
      button.setAttribute("aria-pressed", String(button.dataset.show === what));
    }
    if (what === "map") {
      document.dispatchEvent(new CustomEvent("map-shown"));
    }
  };
  const revealSwitches = () => {
    for (const group of document.querySelectorAll(".seg")) {
      group.hidden = false;
    }
  };
  revealSwitches();
  document.addEventListener("show-list", () => show("list"));
  document.addEventListener("show-map", () => {
    if (narrow.matches) {
      show("map");
      document.getElementById("map-side")?.scrollIntoView({ block: "center" });
    }
  });

  document.addEventListener("click", (event) => {
    const shown = event.target.closest("[data-show]");
    if (shown) {
      show(shown.dataset.show);
    }
    const span = event.target.closest("[data-from][data-to]");
    if (span) {
      event.preventDefault();
      document.getElementById("f-from").value = span.dataset.from;
      document.getElementById("f-to").value = span.dataset.to;
      for (const other of document.querySelectorAll("[data-from][data-to]")) {
        other.removeAttribute("aria-current");
      }
      span.setAttribute("aria-current", "true");
      document.getElementById("f-to").dispatchEvent(new Event("change", { bubbles: true }));
    }
    const copy = event.target.closest("[data-copy]");
    if (copy) {
      copyText(copy);
    }
  });

  const copyText = async (button) => {
    const field = document.getElementById(button.dataset.copy);
    field.select();
    let copied = false;
    try {
      await navigator.clipboard.writeText(field.value);
      copied = true;
    } catch {
      copied = document.execCommand("copy");
    }
    const said = button.querySelector("[data-said]");
    said.textContent = copied ? "Copied" : "Select the link and copy it";
  };

  /* Which shortlist the buttons of the answers put spots on. */
  const collect = () => {
    const chosen = document.querySelector("[data-collect]");
    if (chosen) {
      for (const field of document.querySelectorAll("[data-list]")) {
        field.value = chosen.value;
      }
    }
  };
  document.addEventListener("change", (event) => {
    if (event.target.matches("[data-collect]")) {
      collect();
    }
  });

  document.addEventListener("htmx:afterSettle", (event) => {
    if (event.target.matches?.(".switched")) {
      revealSwitches();
      show(document.body.classList.contains("shows-map") ? "map" : "list");
      const status = document.getElementById("asked");
      const found = document.getElementById("found");
      if (status) {
        status.textContent = found ? found.textContent : "The question needs another look";
      }
    }
  });

  /* Enter in a field of one fix asks for that fix, and not for the first of the form. */
  document.addEventListener("keydown", (event) => {
    const typed = event.key === "Enter" && event.target.matches("input:not([type=file])");
    const fix = typed && event.target.closest(".fix");
    if (fix) {
      event.preventDefault();
      fix.querySelector("button[name=fix]").click();
    }
  });

  /* A click on a compass gives the bearing that the field beside it holds. */
  for (const dial of document.querySelectorAll("[data-dial]")) {
    const field = document.getElementById(dial.dataset.dial);
    const drawing = dial.querySelector("svg");
    const needle = document.createElementNS("http://www.w3.org/2000/svg", "line");
    needle.setAttribute("class", "d-needle");
    needle.setAttribute("x1", "60");
    needle.setAttribute("y1", "60");
    drawing.append(needle);
    const point = () => {
      const angle = (Number(field.value) * Math.PI) / 180;
      const known = field.value !== "" && Number.isFinite(angle);
      needle.setAttribute("x2", String(60 + (known ? 42 * Math.sin(angle) : 0)));
      needle.setAttribute("y2", String(60 - (known ? 42 * Math.cos(angle) : 0)));
    };
    field.addEventListener("input", point);
    dial.addEventListener("click", (event) => {
      const box = drawing.getBoundingClientRect();
      const x = event.clientX - box.left - box.width / 2;
      const y = box.top + box.height / 2 - event.clientY;
      const angle = (Math.atan2(x, y) * 180) / Math.PI;
      field.value = String((Math.round(angle) + 360) % 360);
      point();
    });
    point();
  }

  /* The camera's reading is what the true time differs from by little. */
  document.addEventListener("change", (event) => {
    const into = document.getElementById(event.target.dataset.readingInto);
    if (into) {
      into.value = event.target.selectedOptions[0].dataset.reading || "";
    }
  });
})();
