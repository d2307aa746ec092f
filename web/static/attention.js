"use strict";

(() => {
  const boxes = (from) => [...from.querySelectorAll("input[name=shot]")];
  const allTicked = (from) => boxes(from).every((box) => box.checked);

  /* "All" and the batches follow what is ticked; how many that are is told where they are. */
  const show = (form) => {
    const all = form.querySelector("[data-all]");
    for (const batch of form.querySelectorAll("[data-batch]")) {
      batch.hidden = false;
      batch.querySelector("input").checked = allTicked(batch.parentElement);
    }
    const ticked = boxes(form).filter((box) => box.checked).length;
    const said = form.querySelector("[data-ticked]");
    said.hidden = ticked === 0;
    const words = all.checked ? all.closest("label").textContent.trim() : `${ticked} ticked`;
    said.querySelector("[role=status]").textContent = words;
  };

  document.addEventListener("change", (event) => {
    const form = event.target.closest(".fixing");
    if (form) {
      const batch = event.target.closest("[data-batch]");
      if (event.target.matches("[data-all]")) {
        boxes(form).forEach((box) => (box.checked = event.target.checked));
      } else if (batch) {
        boxes(batch.parentElement).forEach((box) => (box.checked = event.target.checked));
      }
      if ((batch || event.target.name === "shot") && !event.target.checked) {
        form.querySelector("[data-all]").checked = false;
      }
      show(form);
    }
  });

  /* What a correction did, or what was wrong, is the next thing to read. */
  document.addEventListener("htmx:afterSettle", (event) => {
    if (event.target.id === "tray") {
      const said = document.querySelector("#fixed, #tray > .note");
      said?.setAttribute("tabindex", "-1");
      said?.focus();
      document.querySelectorAll(".fixing").forEach(show);
    }
  });

  document.querySelectorAll(".fixing").forEach(show);
})();
