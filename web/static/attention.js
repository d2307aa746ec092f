"use strict";

(() => {
  const boxes = (form) => [...form.querySelectorAll("input[name=shot]")];

  /* "All" ticks what is shown; what is shown unticks "all". */
  document.addEventListener("change", (event) => {
    const form = event.target.closest(".fixing");
    if (!form) {
      return;
    }
    if (event.target.matches("[data-all]")) {
      for (const box of boxes(form)) {
        box.checked = event.target.checked;
      }
    } else if (event.target.name === "shot" && !event.target.checked) {
      form.querySelector("[data-all]").checked = false;
    }
  });

  /* What a correction did, or what was wrong, is the next thing to read. */
  document.addEventListener("htmx:afterSettle", (event) => {
    if (event.target.id === "tray") {
      const said = document.querySelector("#fixed, #tray > .note");
      said?.setAttribute("tabindex", "-1");
      said?.focus();
    }
  });
})();
