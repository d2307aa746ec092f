"use strict";

// Makes a client's answer on a page that has no server: as an e-mail, or as a signed file.
(() => {
  // Mail programs take addresses of some 2000 characters; what is longer goes by the file.
  const MOST_MAIL = 1900;
  const form = document.getElementById("reply");
  const said = form.querySelector("[data-said]");

  // SHA-256 (FIPS 180-4), because browsers keep their own from pages that are opened as files.
  const ROUND = [];
  const START = [];
  for (let n = 2; ROUND.length < 64; n++) {
    let prime = true;
    for (let d = 2; d * d <= n; d++) {
      prime = prime && n % d !== 0;
    }
    if (prime) {
      if (START.length < 8) {
        START.push(fraction(Math.sqrt(n)));
      }
      ROUND.push(fraction(Math.cbrt(n)));
    }
  }

  function fraction(root) {
    return ((root - Math.floor(root)) * 4294967296) | 0;
  }

  function turn(word, by) {
    return (word >>> by) | (word << (32 - by));
  }

  function sha256(bytes) {
    const length = bytes.length;
    const padded = new Uint8Array(((length + 8) >> 6) * 64 + 64);
    padded.set(bytes);
    padded[length] = 0x80;
    const view = new DataView(padded.buffer);
    view.setUint32(padded.length - 8, Math.floor(length / 536870912));
    view.setUint32(padded.length - 4, (length << 3) >>> 0);
    const state = START.slice();
    const words = new Int32Array(64);
    for (let at = 0; at < padded.length; at += 64) {
      for (let i = 0; i < 64; i++) {
        if (i < 16) {
          words[i] = view.getInt32(at + 4 * i);
        } else {
          const early = words[i - 15];
          const late = words[i - 2];
          const a = turn(early, 7) ^ turn(early, 18) ^ (early >>> 3);
          const b = turn(late, 17) ^ turn(late, 19) ^ (late >>> 10);
          words[i] = (words[i - 16] + a + words[i - 7] + b) | 0;
        }
      }
      let [a, b, c, d, e, f, g, h] = state;
      for (let i = 0; i < 64; i++) {
        const sum = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
        const choice = (e & f) ^ (~e & g);
        const first = (h + sum + choice + ROUND[i] + words[i]) | 0;
        const other = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
        const most = (a & b) ^ (a & c) ^ (b & c);
        h = g;
        g = f;
        f = e;
        e = (d + first) | 0;
        d = c;
        c = b;
        b = a;
        a = (first + ((other + most) | 0)) | 0;
      }
      [a, b, c, d, e, f, g, h].forEach((word, i) => {
        state[i] = (state[i] + word) | 0;
      });
    }
    const digest = new DataView(new ArrayBuffer(32));
    state.forEach((word, i) => digest.setInt32(4 * i, word));
    return new Uint8Array(digest.buffer);
  }

  // HMAC (RFC 2104); the secret is shorter than a block.
  function sign(text, secret) {
    const message = new TextEncoder().encode(text);
    const inner = new Uint8Array(64 + message.length).fill(0x36, 0, 64);
    const outer = new Uint8Array(96).fill(0x5c, 0, 64);
    for (let i = 0; i < secret.length / 2; i++) {
      const byte = parseInt(secret.substr(2 * i, 2), 16);
      inner[i] ^= byte;
      outer[i] ^= byte;
    }
    inner.set(message, 64);
    outer.set(sha256(inner), 64);
    return Array.from(sha256(outer), (byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  function fields(start) {
    return Array.from(form.elements).filter((field) => field.name && field.name.startsWith(start));
  }

  // What was in a file once stays in the later ones, also when it is again as the page showed it.
  const touched = new Set();

  function isTouched(field) {
    const id = field.type === "checkbox" ? field.name + " " + field.value : field.name;
    if (
      field.type === "checkbox"
        ? field.checked !== field.defaultChecked
        : field.value !== field.defaultValue
    ) {
      touched.add(id);
    }
    return touched.has(id);
  }

  function reply() {
    const comments = {};
    fields("comment-").forEach((field) => {
      if (field.value.trim()) {
        comments[field.name.slice(8)] = field.value.trim();
      }
    });
    // What was left as the page showed it may have been answered elsewhere since.
    const answers = {};
    fields("answer-").forEach((field) => {
      const key = field.name.slice(7);
      const boxes = fields("places-" + key);
      if ([field, ...boxes].filter(isTouched).length) {
        const places = boxes.filter((box) => box.checked).map((box) => box.value);
        answers[key] = { words: field.value.trim(), places };
      }
    });
    return {
      favourites: fields("favourite").filter((box) => box.checked).map((box) => box.value),
      comments,
      words: form.elements.words.value.trim(),
      answers,
      changed: {
        favourites: fields("favourite").filter(isTouched).map((box) => box.value),
        comments: fields("comment-").filter(isTouched).map((field) => field.name.slice(8)),
        words: isTouched(form.elements.words),
      },
      saved: new Date().toISOString(),
    };
  }

  function readable() {
    const lines = [document.title, ""];
    const liked = fields("favourite").filter((box) => box.checked);
    if (liked.length) {
      lines.push("My favourites: " + liked.map((box) => box.dataset.name).join(", "), "");
    }
    fields("comment-").forEach((field) => {
      if (field.value.trim()) {
        lines.push(field.dataset.name + ": " + field.value.trim(), "");
      }
    });
    fields("answer-").forEach((field) => {
      const boxes = fields("places-" + field.name.slice(7)).filter((box) => box.checked);
      const places = boxes.map((box) => box.nextElementSibling.textContent).join(", ");
      const words = [places, field.value.trim()].filter((part) => part).join("; ");
      if (words) {
        lines.push(field.dataset.question, words, "");
      }
    });
    if (form.elements.words.value.trim()) {
      lines.push(form.elements.words.value.trim(), "");
    }
    return lines.join("\r\n");
  }

  function say(words) {
    said.textContent = words;
    said.hidden = false;
  }

  function mail() {
    const start =
      "mailto:" + encodeURI(form.dataset.mail) + "?subject=" + encodeURIComponent(document.title);
    let body = readable();
    let link = start + "&body=" + encodeURIComponent(body);
    const whole = link.length <= MOST_MAIL;
    while (link.length > MOST_MAIL && body) {
      body = Array.from(body).slice(0, -20).join("");
      link = start + "&body=" + encodeURIComponent(body + "…\r\n\r\nThe rest is in the file.");
    }
    say(
      whole
        ? "Your e-mail program has your answers. Send the message from there."
        : "That is too long for a prepared e-mail. Save it as a file too, and add that to the e-mail.",
    );
    const anchor = document.createElement("a");
    anchor.href = link;
    anchor.click();
  }

  function save() {
    const text = JSON.stringify(reply());
    const file = {
      format: "lightledger-reply",
      version: 1,
      share: form.dataset.share,
      reply: text,
      signature: sign(text, form.dataset.secret),
    };
    const anchor = document.createElement("a");
    const blob = new Blob([JSON.stringify(file)], { type: "application/json" });
    anchor.href = URL.createObjectURL(blob);
    anchor.download = "reply-" + form.dataset.share + ".json";
    anchor.click();
    say("Saved. Send the file " + anchor.download + " to the photographer.");
  }

  form.addEventListener("submit", (event) => event.preventDefault());
  form.querySelector("[data-mailing]").addEventListener("click", mail);
  form.querySelector("[data-saving]").addEventListener("click", save);
  form.querySelector("[data-sending]").hidden = false;
})();
