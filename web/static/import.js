"use strict";

/* Sends pictures in small batches, so that progress is real and one bad file stops nothing. */
(() => {
  const BATCH_FILES = 6;
  const BATCH_BYTES = 24 * 1024 * 1024;
  const drop = document.getElementById("drop");
  const picker = document.getElementById("f-files");
  const tree = document.getElementById("f-tree");
  const report = document.getElementById("upload-report");
  const progress = document.getElementById("progress");
  const bar = document.getElementById("progress-bar");
  const count = document.getElementById("progress-count");
  const rate = document.getElementById("progress-rate");
  const said = document.getElementById("progress-said");
  const stop = document.getElementById("stop");
  let running = false;
  let stopped = false;
  let request = null;

  document.getElementById("send").hidden = true;
  document.getElementById("tree-label").hidden = false;

  const batches = (files) => {
    const made = [];
    let batch = [];
    let bytes = 0;
    for (const file of files) {
      if (batch.length && (batch.length === BATCH_FILES || bytes + file.size > BATCH_BYTES)) {
        made.push(batch);
        batch = [];
        bytes = 0;
      }
      batch.push(file);
      bytes += file.size;
    }
    if (batch.length) {
      made.push(batch);
    }
    return made;
  };

  const post = (batch, onBytes) =>
    new Promise((resolve) => {
      const form = new FormData();
      for (const file of batch) {
        form.append("files", file, file.name);
      }
      request = new XMLHttpRequest();
      request.open("POST", "/import/files");
      request.setRequestHeader("HX-Request", "true");
      request.upload.addEventListener("progress", (event) => onBytes(event.loaded));
      request.addEventListener("load", () => resolve(request.responseText));
      request.addEventListener("error", () => resolve(null));
      request.addEventListener("abort", () => resolve(null));
      request.send(form);
    });

  const place = (html, batch) => {
    const holder = document.createElement("div");
    if (html === null) {
      const note = document.createElement("p");
      note.className = "note is-bad";
      const names = batch.map((file) => file.name).join(", ");
      note.textContent = stopped
        ? `Not sent: ${names}.`
        : `Could not be sent: ${names}. Is Lightledger still running? Send them again.`;
      report.append(note);
      return;
    }
    holder.innerHTML = html;
    const waiting = holder.querySelector("#waiting-count");
    if (waiting) {
      document.getElementById("waiting-count").replaceWith(waiting);
    }
    const sent = holder.querySelector(".report");
    if (!sent) {
      report.append(...holder.childNodes);
      return;
    }
    const whole = report.querySelector(".report");
    if (!whole) {
      report.append(sent);
      return;
    }
    for (const kind of ["added", "known", "attention", "unreadable"]) {
      const field = whole.querySelector(`[data-tally="${kind}"]`);
      field.textContent = String(Number(field.textContent) + Number(sent.dataset[kind]));
    }
    whole.querySelector("[data-settle]").hidden =
      whole.querySelector("[data-tally=attention]").textContent === "0";
    whole.querySelector(".filerows").append(...sent.querySelectorAll(".filerows > li"));
  };

  const megabytes = (bytes) => (bytes / 1048576).toFixed(1);

  const send = async (files) => {
    if (running || files.length === 0) {
      return;
    }
    running = true;
    stopped = false;
    report.replaceChildren();
    progress.hidden = false;
    stop.hidden = false;
    const total = files.reduce((sum, file) => sum + file.size, 0);
    const started = performance.now();
    let doneFiles = 0;
    let doneBytes = 0;
    const show = (bytes) => {
      const seconds = (performance.now() - started) / 1000;
      bar.value = total ? bytes / total : 1;
      count.textContent = `${doneFiles} of ${files.length} pictures`;
      rate.textContent = `${megabytes(bytes)} of ${megabytes(total)} MB, ${megabytes(bytes / Math.max(seconds, 0.1))} MB a second`;
    };
    show(0);
    for (const batch of batches(files)) {
      const size = batch.reduce((sum, file) => sum + file.size, 0);
      place(stopped ? null : await post(batch, (bytes) => show(doneBytes + Math.min(bytes, size))), batch);
      if (!stopped) {
        doneFiles += batch.length;
        doneBytes += size;
        show(doneBytes);
      }
    }
    running = false;
    stop.hidden = true;
    said.textContent = `${doneFiles} of ${files.length} pictures sent`;
  };

  stop.addEventListener("click", () => {
    stopped = true;
    request?.abort();
  });

  for (const input of [picker, tree]) {
    input.addEventListener("change", () => {
      send([...input.files]).finally(() => {
        input.value = "";
      });
    });
  }

  /* Entries of a dropped folder come in portions; an empty portion is the end. */
  const filesOf = async (entry) => {
    if (entry.isFile) {
      return [await new Promise((resolve, reject) => entry.file(resolve, reject))];
    }
    const reader = entry.createReader();
    const found = [];
    for (;;) {
      const portion = await new Promise((resolve, reject) => reader.readEntries(resolve, reject));
      if (portion.length === 0) {
        return found;
      }
      for (const inner of portion) {
        found.push(...(await filesOf(inner)));
      }
    }
  };

  const over = (on) => drop.classList.toggle("is-over", on);
  drop.addEventListener("dragover", (event) => {
    event.preventDefault();
    over(true);
  });
  drop.addEventListener("dragleave", () => over(false));
  drop.addEventListener("drop", async (event) => {
    event.preventDefault();
    over(false);
    const entries = [...event.dataTransfer.items]
      .map((item) => item.webkitGetAsEntry?.())
      .filter(Boolean);
    const files = entries.length
      ? (await Promise.all(entries.map(filesOf))).flat()
      : [...event.dataTransfer.files];
    await send(files);
  });
})();
