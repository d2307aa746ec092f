"use strict";

/* Taking along, ticks, shots, and the screen. */
(() => {
  const at = (id) => document.getElementById(id);
  const page = document.body.dataset;
  const KEPT = "lightledger-field";
  const queue = window.field.queue;
  const DAY_MS = 86400000;

  /* Done entries are told for so long; own choice. */
  const TOLD_MS = 14 * DAY_MS;

  /* A picture that old was not taken where the phone is now; own choice. */
  const FRESH_MS = 120000;
  const MOST_ERROR_M = 100;

  /* A receiver that knows no place by then is not waited for; own choice. */
  const PLACE_MS = 8000;

  const secure = "serviceWorker" in navigator && "caches" in window;

  /* the screen */
  const theme = (name) => {
    document.documentElement.dataset.theme = name;
    at("theme").setAttribute("aria-pressed", String(name === "dark"));
  };
  theme(localStorage.getItem("field-theme") === "dark" ? "dark" : "bright");
  at("theme").addEventListener("click", () => {
    const next = document.documentElement.dataset.theme === "dark" ? "bright" : "dark";
    localStorage.setItem("field-theme", next);
    theme(next);
  });

  /* how old it is */
  const count = (number, one) => `${number} ${one}${number === 1 ? "" : "s"}`;
  const age = (madeAt) => {
    const minutes = Math.floor((Date.now() - madeAt) / 60000);
    if (minutes < 1) {
      return "just now";
    }
    return minutes < 120
      ? `${count(minutes, "minute")} ago`
      : minutes < 2880
        ? `${count(Math.floor(minutes / 60), "hour")} ago`
        : `${count(Math.floor(minutes / 1440), "day")} ago`;
  };
  const made = at("age").textContent;
  const tellAge = () => {
    at("age").textContent = `${made.replace(/\.$/, "")}, ${age(Number(page.made))}.`;
  };
  tellAge();
  setInterval(tellAge, 30000);

  /* taking along */
  const keptNow = async () => {
    const kept = await (await caches.open(KEPT)).match("/field/kept");
    return kept ? kept.json() : null;
  };

  const tellCarried = async (more = "") => {
    if (!secure) {
      at("along").disabled = true;
      at("carried").textContent =
        "This address is not secure, so nothing can be taken along: open it by https.";
      return;
    }
    const kept = await keptNow();
    const words = !kept
      ? "Not on this phone yet."
      : kept.session === page.session
        ? `On this phone, made ${age(kept.madeAt)}.`
        : "Another session is on this phone.";
    at("along").textContent = kept && kept.session === page.session ? "Take along anew" : "Take along";
    at("carried").textContent = `${words} ${more}`.trim();
  };

  const fresh = async (address) => {
    const mark = address.startsWith("/field/") ? (address.includes("?") ? "&fresh=1" : "?fresh=1") : "";
    const answer = await fetch(address + mark, { cache: "no-store" });
    if (!answer.ok || answer.redirected) {
      throw new Error(answer.redirected ? "log in again first" : `the ledger says ${answer.status}`);
    }
    return answer;
  };

  /* All of it is fetched before any of it is kept, so that half a plan never is. */
  const takeAlong = async () => {
    await navigator.serviceWorker.register("/field-worker.js", { scope: "/field" });
    const whole = await fresh(`/field${page.query}`);
    const text = await whole.clone().text();
    const body = new DOMParser().parseFromString(text, "text/html").body.dataset;
    const addresses = body.keep.split(" ");
    const answers = await Promise.all(addresses.map(fresh));
    const cache = await caches.open(KEPT);
    const before = await cache.keys();
    await Promise.all(addresses.map((address, i) => cache.put(address, answers[i])));
    await cache.put("/field", whole);
    const kept = { session: body.session, madeAt: Number(body.made) };
    await cache.put("/field/kept", new Response(JSON.stringify(kept)));
    const wanted = new Set([...addresses, "/field", "/field/kept"]);
    for (const request of before) {
      const url = new URL(request.url);
      if (!wanted.has(url.pathname + url.search)) {
        await cache.delete(request);
      }
    }
    await navigator.storage?.persist?.();
  };

  at("along").addEventListener("click", async () => {
    at("carried").textContent = "Taking along …";
    try {
      await takeAlong();
      await tellCarried("It opens without a network.");
    } catch (problem) {
      await tellCarried(`It could not be taken along: ${problem.message}.`);
    }
  });

  const refresh = async () => {
    const kept = secure ? await keptNow() : null;
    if (kept && kept.session === page.session && navigator.onLine) {
      await takeAlong().catch(() => {});
      await tellCarried();
    }
  };

  at("forget").addEventListener("click", async () => {
    if (secure) {
      await caches.delete(KEPT);
      await tellCarried();
    }
  });

  /* ticks */
  const ticks = [...document.querySelectorAll("[data-item]")];
  const tellPacked = () => {
    const done = ticks.filter(isPressed).length;
    if (ticks.length) {
      at("pack-said").textContent = `${done} of ${ticks.length} packed`;
    }
  };
  const isPressed = (tick) => tick.getAttribute("aria-pressed") === "true";
  const asMade = new Map(ticks.map((tick) => [tick.dataset.item, isPressed(tick)]));
  const press = (tick, done) => {
    tick.setAttribute("aria-pressed", String(done));
    tick.form.elements.done.value = done ? "no" : "yes";
    tellPacked();
  };
  for (const tick of ticks) {
    tick.form.addEventListener("submit", async (event) => {
      event.preventDefault();
      const done = !isPressed(tick);
      press(tick, done);
      const fields = { session: page.session, item: tick.dataset.item, taken: page.made };
      await queue.add("tick", done ? { ...fields, done: "yes" } : fields, "waiting");
      await list();
      send();
    });
  }

  /* shots */
  let asked = null;
  const ask = (entry) => {
    asked = entry;
    at("asking").hidden = !entry;
    if (entry) {
      at("asking-said").textContent = `Kept on this phone: ${entry.name}.`;
    }
  };

  const place = async (file) => {
    const state = await navigator.permissions?.query({ name: "geolocation" }).catch(() => null);
    if (state?.state !== "granted" || Math.abs(Date.now() - file.lastModified) > FRESH_MS) {
      return {};
    }
    /* The receiver's own time stands still while the page is hidden; the page's does not. */
    return new Promise((resolve) => {
      setTimeout(resolve, PLACE_MS, {});
      navigator.geolocation.getCurrentPosition(
        ({ coords }) =>
          resolve(
            coords.accuracy <= MOST_ERROR_M ? { lat: coords.latitude, lon: coords.longitude } : {},
          ),
        () => resolve({}),
        { enableHighAccuracy: true, timeout: PLACE_MS, maximumAge: 10000 },
      );
    });
  };

  at("shot-file").addEventListener("change", async (event) => {
    const [file] = event.target.files;
    if (!file) {
      return;
    }
    const entry = await queue.add("shot", {}, "asking", file);
    event.target.value = "";
    queue.placing(entry.id, () => place(file));
    ask(entry);
    await list();
    at("asking").scrollIntoView({ block: "center" });
    at("asking-said").focus();
  });

  for (const button of document.querySelectorAll("[data-word]")) {
    button.addEventListener("click", async () => {
      await queue.change(asked.id, (entry) => {
        entry.fields.word = button.dataset.word;
        entry.state = "waiting";
      });
      ask((await queue.all()).find((one) => one.state === "asking") ?? null);
      await list();
      at("queue-said").focus();
      send();
    });
  }

  /* what waits, and what became of it */
  const STATES = { asking: "say whether the sun is on it", waiting: "waits to be sent", done: "sent", refused: "not taken" };

  const named = (entry) => {
    if (entry.kind === "shot") {
      return `Shot ${entry.name ?? ""}`;
    }
    const tick = ticks.find((one) => one.dataset.item === entry.fields.item);
    const thing = tick ? tick.textContent.trim() : `thing ${entry.fields.item}`;
    return `${entry.fields.done ? "Packed" : "Not packed"}: ${thing}`;
  };

  const button = (words, work) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.addEventListener("click", work);
    return made;
  };

  const save = (entry) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([entry.bytes], { type: entry.type }));
    link.download = entry.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  };

  const row = (entry) => {
    const item = document.createElement("li");
    item.className = `is-${entry.state}`;
    const head = document.createElement("p");
    const strong = document.createElement("strong");
    strong.textContent = named(entry);
    head.append(strong, `: ${STATES[entry.state]}, ${age(entry.madeAt)}`);
    item.append(head);
    if (entry.told) {
      const told = document.createElement("p");
      told.textContent = entry.told;
      item.append(told);
    }
    if (entry.state === "refused") {
      const together = document.createElement("div");
      together.className = "together";
      if (entry.bytes) {
        together.append(button("Save the file", () => save(entry)));
      }
      together.append(
        button("Remove", async () => {
          await queue.remove(entry.id);
          await list();
        }),
      );
      item.append(together);
    }
    return item;
  };

  /* What waits counts, else what the ledger told last: by the page or since, by its own clock. */
  const tellTicks = (entries) => {
    for (const tick of ticks) {
      const said = entries.filter(
        ({ kind, fields }) =>
          kind === "tick" && fields.session === page.session && fields.item === tick.dataset.item,
      );
      const waiting = said.filter((entry) => entry.state === "waiting").at(-1);
      const told = said
        .filter(({ packed, asOf }) => typeof packed === "boolean" && asOf >= Number(page.made))
        .sort((one, other) => one.asOf - other.asOf)
        .at(-1);
      const known = told ? told.packed : asMade.get(tick.dataset.item);
      const done = waiting ? waiting.fields.done === "yes" : known;
      if (isPressed(tick) !== done) {
        press(tick, done);
      }
    }
  };

  const list = async (why = "") => {
    const entries = await queue.all();
    tellTicks(entries);
    for (const entry of entries) {
      if (entry.state === "done" && Date.now() - entry.madeAt > TOLD_MS) {
        await queue.remove(entry.id);
      }
    }
    const waiting = entries.filter((entry) => entry.state === "waiting").length;
    const words = waiting
      ? `${count(waiting, "entry").replace("entrys", "entries")} to send`
      : "Nothing waits to be sent";
    at("queue-said").textContent = why ? `${words}: ${why}.` : `${words}.`;
    at("queue").replaceChildren(...entries.reverse().map(row));
  };

  const send = async () => {
    const before = (await queue.all()).filter((entry) => entry.state === "waiting").length;
    const why = await queue.sync();
    await list(why);
    if (before && !why) {
      await refresh();
    }
  };

  at("send").addEventListener("click", send);
  window.addEventListener("online", send);
  setInterval(async () => {
    if (document.visibilityState === "visible" && (await queue.all()).some((e) => e.state === "waiting")) {
      send();
    }
  }, 30000);

  const begin = async () => {
    await tellCarried();
    const asking = (await queue.all()).find((entry) => entry.state === "asking");
    ask(asking ?? null);
    await list();
    await send();
    await refresh();
  };
  begin();
})();
