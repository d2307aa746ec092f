"use strict";

/* Taps in the picture fill in the pixels, which can be typed as well. */
(() => {
  const form = document.getElementById("tap-form");
  const frame = document.querySelector("[data-tap]");
  if (!frame) {
    return;
  }
  const picture = frame.querySelector("img");
  const widthPx = Number(frame.dataset.width);
  const heightPx = Number(frame.dataset.height);
  const STEPS = { sun: ["at"], own: ["at"], shadow: ["foot", "tip", "horizon"] };

  const kind = () => form.querySelector("input[name=tap]:checked").value;
  const fields = (step) => ["x", "y"].map((axis) => document.getElementById(`f-${step}${axis}`));
  const isSet = (step) => fields(step).every((field) => field.value !== "");

  const draw = () => {
    for (const mark of frame.querySelectorAll(".tapmark")) {
      mark.remove();
    }
    for (const step of STEPS[kind()].filter(isSet)) {
      const [x, y] = fields(step).map((field) => Number(field.value));
      const mark = document.createElement("span");
      mark.className = `tapmark tapmark-${step}`;
      mark.style.left = `${(100 * x) / widthPx}%`;
      mark.style.top = `${(100 * y) / heightPx}%`;
      frame.append(mark);
    }
  };

  const showKind = () => {
    for (const set of form.querySelectorAll("[data-for]")) {
      set.hidden = !set.dataset.for.split(" ").includes(kind());
    }
    draw();
  };

  const nextStep = () => {
    const steps = STEPS[kind()];
    const free = steps.find((step) => !isSet(step));
    if (free) {
      return free;
    }
    for (const field of steps.flatMap(fields)) {
      field.value = "";
    }
    return steps[0];
  };

  picture.addEventListener("click", (event) => {
    const box = picture.getBoundingClientRect();
    const step = nextStep();
    const [x, y] = fields(step);
    x.value = (((event.clientX - box.left) * widthPx) / box.width).toFixed(1);
    y.value = (((event.clientY - box.top) * heightPx) / box.height).toFixed(1);
    draw();
    if (step !== "foot") {
      form.requestSubmit();
    }
  });

  form.addEventListener("change", (event) => {
    if (event.target.name === "tap") {
      showKind();
    } else {
      draw();
    }
  });
  frame.classList.add("is-ready");
  showKind();
})();
