"use strict";

/* What was done on the phone, until the ledger has it. Each entry is named here, once, so that the
   ledger knows one that is sent again. A picture is kept as its bytes, so that nothing it says of
   itself is lost. */
window.field = {};

(() => {
  const open = () =>
    new Promise((resolve, reject) => {
      const request = indexedDB.open("lightledger-field", 1);
      request.onupgradeneeded = () =>
        request.result.createObjectStore("entries", { keyPath: "id" });
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });

  const within = async (mode, work) => {
    const database = await open();
    try {
      return await new Promise((resolve, reject) => {
        const transaction = database.transaction("entries", mode, { durability: "strict" });
        const request = work(transaction.objectStore("entries"));
        transaction.oncomplete = () => resolve(request.result);
        transaction.onabort = () => reject(transaction.error);
      });
    } finally {
      database.close();
    }
  };

  const put = (entry) => within("readwrite", (entries) => entries.put(entry));
  const find = (id) => within("readonly", (entries) => entries.get(id));

  /* Changes what is kept of an entry, so that no older copy of it undoes what another has added. */
  const change = (id, work) =>
    within("readwrite", (entries) => {
      const request = entries.get(id);
      request.onsuccess = () => {
        if (request.result) {
          work(request.result);
          entries.put(request.result);
        }
      };
      return request;
    });

  const remove = (id) => within("readwrite", (entries) => entries.delete(id));
  const all = async () => {
    const entries = await within("readonly", (store) => store.getAll());
    return entries.sort((one, other) => one.madeAt - other.madeAt);
  };

  /* crypto.randomUUID and this queue's page both need a secure address. */
  const add = async (kind, fields, state, file) => {
    const entry = { id: crypto.randomUUID(), kind, madeAt: Date.now(), fields, state, told: "" };
    if (file) {
      entry.name = file.name || "shot.jpg";
      entry.type = file.type;
      entry.bytes = await file.arrayBuffer();
    }
    await put(entry);
    return entry;
  };

  /* An entry is not sent while its place is being found. The lock goes with its page, so that one
     that is closed meanwhile holds nothing up. */
  const placeLock = (id) => `lightledger-field-place-${id}`;
  const placing = (id, place) =>
    navigator.locks.request(placeLock(id), async () => {
      const found = await place();
      await change(id, (entry) => Object.assign(entry.fields, found));
    });
  const placed = (id) => navigator.locks.request(placeLock(id), () => find(id));

  const body = (entry) => {
    const form = new FormData();
    form.append("id", entry.id);
    form.append("made", entry.madeAt);
    for (const [name, value] of Object.entries(entry.fields)) {
      form.append(name, value);
    }
    if (entry.bytes) {
      form.append("file", new Blob([entry.bytes], { type: entry.type }), entry.name);
      return form;
    }
    return new URLSearchParams(form);
  };

  const REFUSED = [400, 413, 415, 422];

  const send = async (entry) => {
    const to = entry.kind === "shot" ? "/field/shots" : "/field/ticks";
    const headers = { Accept: "application/json" };
    let answer;
    try {
      answer = await fetch(to, { method: "POST", body: body(entry), headers });
    } catch {
      return "no network to the ledger";
    }
    const said = await answer.json().catch(() => ({}));
    if (answer.ok && said.id === entry.id) {
      const { bytes, ...rest } = entry;
      const { told, shotId, packed, asOf } = said;
      await put({ ...rest, state: "done", told, shotId, packed, asOf });
      return "";
    }
    if (REFUSED.includes(answer.status)) {
      const told = [said.title, said.detail, said.toDo].filter(Boolean).join(". ");
      await put({ ...entry, state: "refused", told });
      return "";
    }
    return answer.status === 401
      ? "log in on this phone again, then send"
      : `the ledger can not take it now (${said.detail ?? answer.status})`;
  };

  /* One after the other, oldest first; only one page of the phone at a time. */
  const sync = () =>
    navigator.locks.request("lightledger-field", async () => {
      for (const entry of await all()) {
        if (entry.state === "waiting") {
          const why = await send(await placed(entry.id));
          if (why) {
            return why;
          }
        }
      }
      return "";
    });

  window.field.queue = { add, all, change, placing, remove, sync };
})();
