"use strict";
// The pocket sheet: ticks, timers, readings, notes and photos, kept on this phone and nowhere else.
(function () {
  const sheet = JSON.parse(document.getElementById("sheet").textContent);
  const words = sheet.words;
  const key = "splitpin " + sheet.job + " " + sheet.print;
  const find = (id) => document.getElementById(id);
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const rows = sheet.steps.map((step) => ({ ...step, item: find("step-" + step.n), tick: find("tick-" + step.n) }));
  const PHOTO_KB = sheet.photo_kb, PHOTO_EDGE = 1600, UNDO = 50;
  const UNDOABLE = ["started", "last", "waiting", "waitSince", "done", "spent", "timers", "over"];

  const blank = () => ({
    v: 1, started: null, last: null, waiting: 0, waitSince: null,
    done: {}, spent: {}, timers: {}, over: {}, values: {}, notes: {}, parts: {}, photos: [],
    remarks: "", engineer: "", customer: "",
  });
  let state = blank();
  let photos = {};        // id -> data URL; stored one by one, apart from the text
  let past = [];          // ticks, timers and times before each change; words and readings are never taken back
  let stored = true;
  let shown = null;       // the step that was next when the page was last shown

  // Store. Text first: it is one small entry, and a photo that does not fit never takes its place.
  function load() {
    try {
      const text = localStorage.getItem(key);
      if (text) state = { ...blank(), ...JSON.parse(text) };
      for (const photo of state.photos) photos[photo.id] = localStorage.getItem(key + " " + photo.id) || "";
      state.photos = state.photos.filter((photo) => photos[photo.id]);
    } catch (error) {
      stored = false;
    }
  }
  function save() {
    try {
      localStorage.setItem(key, JSON.stringify(state));
      stored = true;
    } catch (error) {
      stored = false;
    }
    find("alarm").hidden = stored;
    find("alarm").textContent = stored ? "" : words.full;
  }
  function change(act) {
    past.push(JSON.stringify(Object.fromEntries(UNDOABLE.map((name) => [name, state[name]]))));
    if (past.length > UNDO) past.shift();
    act();
    save();
    show();
  }
  const say = (text) => { find("say").textContent = text; };

  // Time. What passes between two ticks belongs to the phase of the second; time spent waiting is apart.
  function charge(phase) {
    const now = Date.now();
    if (state.started === null) state.started = now;
    if (state.last !== null && phase) state.spent[phase] = (state.spent[phase] || 0) + Math.max(0, now - state.last);
    state.last = now;
  }
  const current = () => rows.find((row) => !state.done[row.n]);
  function stopWaiting() {
    if (state.waitSince === null) return;
    state.waiting += Math.max(0, Date.now() - state.waitSince);
    state.waitSince = null;
    state.last = Date.now();
  }
  function tick(row, on) {
    change(() => {
      if (on) {
        stopWaiting();
        charge(row.phase);
        state.done[row.n] = Date.now();
      } else {
        delete state.done[row.n];
      }
    });
    say(fill(on ? words.ticked : words.unticked, { n: row.n }));
  }

  // Show.
  const clock = (s) => Math.floor(s / 60) + ":" + String(Math.floor(s % 60)).padStart(2, "0");
  function show() {
    const next = current();
    for (const row of rows) {
      row.tick.checked = Boolean(state.done[row.n]);
      row.item.classList.toggle("done", row.tick.checked);
      row.item.classList.toggle("next", row === next);
      if (row === next) row.item.setAttribute("aria-current", "step");
      else row.item.removeAttribute("aria-current");
      if (next !== shown && (row === next || row === shown)) find("more-" + row.n).open = row === next;
      const note = find("note-" + row.n);
      if (document.activeElement !== note) note.value = state.notes[row.n] || "";
    }
    shown = next;
    const count = rows.filter((row) => row.tick.checked).length;
    find("progress").value = count;
    find("progress-words").textContent = fill(words.progress, { done: count, all: rows.length });
    find("done").disabled = !next;
    find("done").textContent = next ? fill(words.done, { n: next.n }) : words.all_done;
    find("undo").disabled = past.length === 0;
    find("wait").textContent = state.waitSince === null ? words.wait : words.go_on;
    find("wait").setAttribute("aria-pressed", String(state.waitSince !== null));
    for (const reading of sheet.readings) judge(reading);
    for (const part of sheet.parts) {
      const box = find("part-" + part.part);
      if (document.activeElement !== box) box.value = state.parts[part.part] ?? part.quantity;
    }
    for (const name of ["remarks", "engineer", "customer"]) {
      if (document.activeElement !== find(name)) find(name).value = state[name];
    }
    showPhotos();
    showTimers();
  }
  function bring() {
    const next = current();
    if (!next) return;
    next.item.scrollIntoView({ block: "center" });
    next.item.focus({ preventScroll: true });
  }

  // Timers run by the clock on the wall: they go on while the page is shut.
  function showTimers() {
    for (const row of rows.filter((one) => one.wait_s)) {
      const end = state.timers[row.n];
      const left = end === undefined ? null : Math.ceil((end - Date.now()) / 1000);
      const words_ = left === null ? fill(words.start_wait, { time: clock(row.wait_s) })
        : left > 0 ? fill(words.running, { time: clock(left) }) : fill(words.over, { n: row.n });
      const button = find("timer-" + row.n);
      if (button.textContent !== words_) button.textContent = words_;
      button.classList.toggle("over", left !== null && left <= 0);
      if (left !== null && left <= 0 && !state.over[row.n]) {
        state.over[row.n] = true;
        save();
        say(fill(words.over, { n: row.n }));
        if (navigator.vibrate) navigator.vibrate([300, 200, 300]);
      }
    }
  }

  // Readings: judged at once against the limit on the sheet.
  const number = (text) => /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text.trim()) ? Number(text.trim().replace(",", ".")) : null;
  function verdict(reading) {
    const text = state.values[reading.key];
    if (text === undefined || text.trim() === "") return null;
    const value = number(text);
    if (value === null) return "bad";
    if (reading.min === null && reading.max === null) return "no-limit";
    const low = reading.min !== null && value < reading.min, high = reading.max !== null && value > reading.max;
    return low || high ? "fail" : "pass";
  }
  function judge(reading) {
    const result = verdict(reading);
    const box = find("value-" + reading.key), told = find("told-" + reading.key), stop = find("stop-" + reading.key);
    if (document.activeElement !== box) box.value = state.values[reading.key] ?? "";
    const said = { pass: words.passed, fail: words.failed, "no-limit": words.unjudged, bad: words.number };
    told.textContent = result ? said[result] : "";
    told.className = "told " + (result || "");
    box.setAttribute("aria-invalid", String(result === "fail" || result === "bad"));
    stop.hidden = result !== "fail";
  }

  // Photos: made smaller, then stored one by one.
  function showPhotos() {
    const list = find("photos");
    if (list.dataset.shown === state.photos.map((photo) => photo.id).join(" ")) return;
    list.dataset.shown = state.photos.map((photo) => photo.id).join(" ");
    list.replaceChildren(...state.photos.map((photo) => {
      const item = document.createElement("li"), picture = document.createElement("img"), button = document.createElement("button");
      picture.src = photos[photo.id];
      picture.alt = photo.name;
      button.type = "button";
      button.textContent = fill(words.delete_photo, { name: photo.name });
      button.addEventListener("click", () => {
        state.photos = state.photos.filter((one) => one.id !== photo.id);
        localStorage.removeItem(key + " " + photo.id);
        delete photos[photo.id];
        save();
        show();
      });
      item.append(picture, button);
      return item;
    }));
  }
  async function addPhoto(file) {
    let data = "";
    try {
      const picture = await createImageBitmap(file);
      const scale = Math.min(1, PHOTO_EDGE / Math.max(picture.width, picture.height));
      const canvas = document.createElement("canvas");
      canvas.width = Math.max(1, Math.round(picture.width * scale));
      canvas.height = Math.max(1, Math.round(picture.height * scale));
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      for (const quality of [0.8, 0.6, 0.4]) {
        data = canvas.toDataURL("image/jpeg", quality);
        if (data.length <= PHOTO_KB * 1024) break;
      }
    } catch (error) {
      return say(fill(words.photo_bad, { name: file.name }));
    }
    if (data.length > PHOTO_KB * 1024) return say(fill(words.photo_large, { name: file.name, size: PHOTO_KB }));
    const id = "photo " + Date.now() + " " + state.photos.length;
    try {
      localStorage.setItem(key + " " + id, data);
    } catch (error) {
      return say(fill(words.photo_full, { name: file.name }));
    }
    photos[id] = data;
    state.photos.push({ id, name: file.name });
    save();
    if (!stored) {                       // the text comes first: the photo gives way
      localStorage.removeItem(key + " " + id);
      delete photos[id];
      state.photos.pop();
      save();
      say(fill(words.photo_full, { name: file.name }));
    }
    show();
  }

  // Export and import: the visit as it was.
  const minutes = (ms) => Math.round(ms / 600) / 100;
  function visit() {
    const day = new Date(state.started ?? Date.now());
    const date = [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
    const judged = sheet.readings.map((reading) => ({ reading, result: verdict(reading) }));
    const known = judged.filter(({ result }) => result && result !== "bad");
    const text = (value) => value.trim();
    const steps = rows.map((row) => ({ n: row.n, done: Boolean(state.done[row.n]), note: text(state.notes[row.n] || "") }));
    const unread = judged.filter(({ result }) => result === "bad");
    const notes = [text(state.remarks), ...unread.map(({ reading }) => reading.title + ": " + state.values[reading.key])];
    const phases = Object.fromEntries(Object.entries(state.spent).map(([phase, ms]) => [phase, minutes(ms)]));
    const actual = {
      format: 1, job: sheet.job, assembly: sheet.assembly, date,
      total_min: minutes(Object.values(state.spent).reduce((sum, ms) => sum + ms, 0)),
      waiting_min: minutes(state.waiting + (state.waitSince === null ? 0 : Date.now() - state.waitSince)),
      phases,
      steps: steps.map(({ note, ...step }) => (note ? { ...step, note } : step)),
      readings: known.map(({ reading, result }) => ({
        proof: reading.proof, reading: reading.id, value: number(state.values[reading.key]), unit: reading.unit, result,
      })),
      parts: sheet.parts.map((part) => ({ part: part.part, quantity: Number(state.parts[part.part] ?? part.quantity) }))
        .filter((part) => Number.isInteger(part.quantity) && part.quantity > 0),
      photos: state.photos.map((photo) => ({ name: photo.name, data: photos[photo.id] })),
      signatures: [["engineer", state.engineer], ["customer", state.customer]]
        .filter(([, name]) => text(name)).map(([role, name]) => ({ role, name: text(name) })),
    };
    const remarks = notes.filter(Boolean).join("\n");
    return remarks ? { ...actual, notes: remarks } : actual;
  }
  function exportVisit() {
    const name = sheet.job.replace(/[^A-Za-z0-9-]+/g, "-") + "-visit.json";
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([JSON.stringify(visit(), null, 1)], { type: "application/json" }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    say(fill(words.exported, { name }));
  }
  async function importVisit(file) {
    let actual;
    try {
      actual = JSON.parse(await file.text());
      if (actual.format !== 1 || !Array.isArray(actual.steps) || typeof actual.phases !== "object") throw new Error();
    } catch (error) {
      return say(fill(words.import_bad, { name: file.name }));
    }
    if (actual.job !== sheet.job) return say(fill(words.import_other, { name: file.name, job: String(actual.job) }));
    const lost = [];
    past = [];
    {
      const now = Date.now();
      state = blank();
      state.started = new Date(actual.date + "T12:00").getTime();
      state.last = now;
      for (const [phase, spent] of Object.entries(actual.phases)) state.spent[phase] = spent * 60000;
      state.waiting = (actual.waiting_min || 0) * 60000;
      for (const step of actual.steps) {
        if (step.done) state.done[step.n] = now;
        if (step.note) state.notes[step.n] = step.note;
      }
      for (const reading of actual.readings || []) state.values[reading.proof + "--" + reading.reading] = String(reading.value);
      for (const part of sheet.parts) state.parts[part.part] = "0";
      for (const part of actual.parts || []) state.parts[part.part] = String(part.quantity);
      for (const { role, name } of actual.signatures || []) if (role in state) state[role] = name;
      state.remarks = actual.notes || "";
      (actual.photos || []).forEach((photo, place) => {
        const id = "photo " + now + " " + place;
        try { localStorage.setItem(key + " " + id, photo.data); } catch (error) { lost.push(photo.name); return; }
        photos[id] = photo.data;
        state.photos.push({ id, name: photo.name });
      });
    }
    save();
    show();
    say(lost.length ? fill(words.photo_full, { name: lost.join(", ") }) : fill(words.imported, { name: file.name }));
  }

  // Hands on.
  for (const row of rows) {
    row.tick.addEventListener("change", () => tick(row, row.tick.checked));
    find("note-" + row.n).addEventListener("input", (event) => { state.notes[row.n] = event.target.value; save(); });
    if (row.wait_s) {
      find("timer-" + row.n).addEventListener("click", () => {
        if (state.timers[row.n] !== undefined) return;
        change(() => { state.timers[row.n] = Date.now() + row.wait_s * 1000; });
      });
    }
  }
  for (const reading of sheet.readings) {
    find("value-" + reading.key).addEventListener("input", (event) => {
      state.values[reading.key] = event.target.value;
      save();
      judge(reading);
    });
  }
  for (const part of sheet.parts) {
    find("part-" + part.part).addEventListener("input", (event) => { state.parts[part.part] = event.target.value; save(); });
  }
  for (const name of ["remarks", "engineer", "customer"]) {
    find(name).addEventListener("input", (event) => { state[name] = event.target.value; save(); });
  }
  find("done").addEventListener("click", () => { const next = current(); if (next) { tick(next, true); bring(); } });
  find("undo").addEventListener("click", () => {
    if (!past.length) return;
    state = { ...state, ...JSON.parse(past.pop()) };
    save();
    show();
    say(words.undone);
  });
  find("wait").addEventListener("click", () => change(() => {
    if (state.waitSince !== null) return stopWaiting();
    const next = current();
    charge(next && next.phase);
    state.waitSince = Date.now();
  }));
  find("photo").addEventListener("change", async (event) => {
    for (const file of [...event.target.files]) await addPhoto(file);
    event.target.value = "";
  });
  find("export").addEventListener("click", exportVisit);
  find("import").addEventListener("change", async (event) => {
    if (event.target.files.length) await importVisit(event.target.files[0]);
    event.target.value = "";
  });
  find("clear").addEventListener("click", () => {
    if (!confirm(words.clear_sure)) return;
    for (const photo of state.photos) localStorage.removeItem(key + " " + photo.id);
    state = blank();
    photos = {};
    past = [];
    save();
    show();
  });
  addEventListener("beforeunload", (event) => { if (!stored) event.preventDefault(); });
  setInterval(showTimers, 500);
  load();
  save();
  show();
  if (state.started !== null) bring();
})();
