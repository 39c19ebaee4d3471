// What the page can do better with script: dropping photos, saying that it works, sending folders, keeping a lane up to date.
// Everything else works without.
"use strict";
document.documentElement.classList.add("scripted");

for (const select of document.querySelectorAll("select[data-submits]")) {
  select.addEventListener("change", () => select.form.requestSubmit());
}

// Says which files were chosen.
for (const note of document.querySelectorAll("[data-chosen]")) {
  const form = note.closest("form");
  form.addEventListener("change", () => sayChosen(form, note));
}

function sayChosen(form, note) {
  const names = [...form.querySelectorAll("input[type=file]")].flatMap((input) => [...input.files].map((file) => file.name));
  note.textContent = names.length > 0 ? note.dataset.chosen.replace("{0}", names.join(", ")) : "";
}

// Photos may be dropped anywhere on the frame of a form.
for (const form of document.querySelectorAll("form[data-drop]")) {
  const input = document.getElementById(form.dataset.drop);
  const over = (event) => {
    event.preventDefault();
    form.classList.add("over");
  };
  form.addEventListener("dragover", over);
  form.addEventListener("dragenter", over);
  form.addEventListener("dragleave", () => form.classList.remove("over"));
  form.addEventListener("drop", (event) => {
    event.preventDefault();
    form.classList.remove("over");
    if (event.dataTransfer.files.length > 0) {
      input.files = event.dataTransfer.files;
      form.dispatchEvent(new Event("change"));
    }
  });
}

// A form that takes a while says so, and is sent once.
for (const form of document.querySelectorAll("form[data-busy]")) {
  form.addEventListener("submit", () => {
    const note = form.querySelector(".busy") || form.appendChild(Object.assign(document.createElement("p"), { className: "busy" }));
    note.setAttribute("role", "status");
    note.textContent = form.dataset.busy;
    // After the form was read: a button that is off is not sent with it.
    setTimeout(() => form.querySelectorAll("button").forEach((button) => { button.disabled = true; }), 0);
  });
}

// Back from another page, the browser shows this one as it was left.
window.addEventListener("pageshow", (event) => {
  if (event.persisted) {
    for (const form of document.querySelectorAll("form[data-busy]")) {
      form.querySelectorAll("button").forEach((button) => { button.disabled = false; });
      form.querySelectorAll(".busy").forEach((note) => { note.textContent = ""; });
    }
  }
});

// A folder goes vehicle by vehicle, so that an upload that broke off goes on where it was.
for (const form of document.querySelectorAll("form[data-lane]")) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    sendFolder(form);
  });
}

// A folder may also be dropped; of a dropped folder the browser gives entries to walk through, not files.
const dropped = new WeakMap();
for (const form of document.querySelectorAll("form[data-lane]")) {
  const input = form.querySelector("input[type=file]");
  const over = (event) => {
    event.preventDefault();
    form.classList.add("over");
  };
  form.addEventListener("dragover", over);
  form.addEventListener("dragenter", over);
  form.addEventListener("dragleave", () => form.classList.remove("over"));
  form.addEventListener("drop", async (event) => {
    event.preventDefault();
    form.classList.remove("over");
    const entries = [...event.dataTransfer.items].map((item) => item.webkitGetAsEntry?.()).filter((entry) => entry);
    // One folder is the lane, as if it had been chosen; several are its vehicles.
    const above = entries.length > 1 ? "dropped/" : "";
    try {
      const found = (await Promise.all(entries.map((entry) => walk(entry, above)))).flat();
      input.value = "";
      dropped.set(form, found);
      sayDropped(form, found);
    } catch (error) {
      form.querySelector(".busy").textContent = form.dataset.unread.replace("{0}", error.message);
    }
  });
  input.addEventListener("change", () => {
    dropped.delete(form);
    sayDropped(form, placesOf(form));
  });
}

async function walk(entry, above) {
  const path = above + entry.name;
  if (entry.isFile) {
    return [{ path, file: await new Promise((resolve, reject) => entry.file(resolve, reject)) }];
  }

  // A folder is read in portions; the empty one is the last.
  const reader = entry.createReader();
  const found = [];
  for (;;) {
    const some = await new Promise((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0) {
      return found;
    }
    for (const one of some) {
      found.push(...await walk(one, `${path}/`));
    }
  }
}

// So many of something, in the words that an element carries for one and for several.
function counted(element, what, count) {
  return element.dataset[count === 1 ? `${what}One` : `${what}Many`].replace("{0}", count);
}

// What is to be sent: each file with its path, whose first part is the folder that was chosen or dropped.
function placesOf(form) {
  return dropped.get(form)
    || [...form.querySelector("input[type=file]").files].map((file) => ({ path: file.webkitRelativePath, file }));
}

function sayDropped(form, places) {
  const vehicles = vehiclesOf(places);
  const photos = [...vehicles.values()].reduce((sum, some) => sum + some.length, 0);
  form.querySelector(".busy").textContent = vehicles.outside
    ? form.dataset.outside.replace("{0}", vehicles.outside)
    : form.dataset.counted.replace("{0}", counted(form, "vehicle", vehicles.size)).replace("{1}", counted(form, "photo", photos));
}

async function sendFolder(form) {
  const note = form.querySelector(".busy");
  const bar = form.querySelector("progress");
  const vehicles = vehiclesOf(placesOf(form));
  if (vehicles.outside) {
    note.textContent = form.dataset.outside.replace("{0}", vehicles.outside);
    return;
  }
  if (vehicles.size === 0) {
    note.textContent = form.dataset.none;
    return;
  }

  const buttons = form.querySelectorAll("button");
  buttons.forEach((button) => { button.disabled = true; });
  const there = JSON.parse(form.dataset.there);
  const refused = [];
  bar.hidden = false;
  bar.max = vehicles.size;
  let lane = form.dataset.lane;
  let sent = 0;
  let now = "";
  try {
    if (!lane) {
      const start = new FormData();
      start.append("name", form.elements.name.value);
      start.append("follow", "yes");
      lane = (await post("/lanes", start)).pathname.split("/").pop();
      form.dataset.lane = lane;
      // Whoever reloads now comes to the lane, not to an empty form.
      history.replaceState(null, "", `/lanes/${lane}`);
    }
    for (const [vehicle, files] of vehicles) {
      now = vehicle;
      bar.value = sent;
      note.textContent = form.dataset.sending.replace("{0}", sent + 1).replace("{1}", vehicles.size).replace("{2}", vehicle);
      if (there[vehicle] !== files.length) {
        const part = new FormData();
        part.append("follow", "yes");
        files.forEach((one) => part.append("photos", one.file, one.path));
        refused.push(...(await post(`/lanes/${lane}/photos`, part)).searchParams.getAll("refused"));
      }
      sent++;
    }
    await post(`/lanes/${lane}/start`, new FormData());
    bar.value = sent;
    note.textContent = form.dataset.done;
    const query = new URLSearchParams(refused.slice(0, 5).map((name) => ["refused", name]));
    location.assign(`/lanes/${lane}${refused.length > 0 ? `?${query}` : ""}`);
  } catch (error) {
    note.textContent = form.dataset.failed.replace("{0}", now).replace("{1}", error.message);
    buttons.forEach((button) => { button.disabled = false; });
  }
}

// Vehicle -> its photos; the chosen folder itself is the first part of every path.
function vehiclesOf(places) {
  const vehicles = new Map();
  for (const place of places.filter((one) => /\.(jpe?g|png)$/i.test(one.path))) {
    const parts = place.path.split("/");
    if (parts.length < 3) {
      vehicles.outside = place.file.name;
      continue;
    }
    vehicles.set(parts[1], [...(vehicles.get(parts[1]) || []), place]);
  }
  return vehicles;
}

// Sends a form and gives the address that it led to.
async function post(address, form) {
  const answer = await fetch(address, { method: "POST", body: form });
  if (!answer.ok) {
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    throw new Error(page.querySelector(".lead")?.textContent || answer.statusText);
  }
  return new URL(answer.url);
}

// A filter asks nobody: every vehicle is on the page, and those that do not fit are hidden.
function filter() {
  const form = document.querySelector("form[data-filters]");
  const table = form && document.getElementById(form.dataset.filters);
  if (!table) {
    return;
  }

  const show = form.elements.show.value;
  const search = form.elements.q.value.trim().toLowerCase();
  let shown = 0;
  for (const row of table.tBodies[0].rows) {
    const fits = (show === "all" || row.dataset.fits.split(" ").includes(show)) && row.dataset.name.toLowerCase().includes(search);
    if (row.hidden === fits) {
      row.hidden = !fits;
    }
    shown += fits ? 1 : 0;
  }
  table.hidden = shown === 0;
  document.getElementById("none").hidden = shown > 0;
  table.caption.textContent = counted(table.caption, "vehicle", shown);
}

function listenToFilter() {
  const form = document.querySelector("form[data-filters]");
  if (!form) {
    return;
  }

  let soon = 0;
  const apply = () => {
    filter();
    // Once the reader rests: browsers fetch the page's icon anew at each change of the address.
    clearTimeout(soon);
    soon = setTimeout(remember, 400);
  };
  const remember = () => {
    // Whoever reloads, goes back or sends the address on sees the same.
    const query = new URLSearchParams(location.search);
    query.set("show", form.elements.show.value);
    query.set("q", form.elements.q.value.trim());
    history.replaceState(null, "", `?${query}`);
  };
  form.elements.show.addEventListener("change", apply);
  form.elements.q.addEventListener("input", apply);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    apply();
  });
}

listenToFilter();
// A page that comes back from the browser's memory keeps what was typed, not what was hidden.
window.addEventListener("pageshow", filter);

// A lane that is being graded is kept up to date where it stands.
const live = document.getElementById("live");
if (live?.dataset.live === "runs") {
  keepLive(live, { time: performance.now(), done: Number(live.dataset.done) });
}

// Puts in place what changed, row by row, so that the filter, the focus and the reader's place stay and little is drawn anew.
function renew(old, next) {
  const here = old.querySelector("#lane");
  const there = next.querySelector("#lane");
  if (!here || !there || old.dataset.live !== next.dataset.live) {
    const form = old.querySelector("form[data-filters]");
    const [show, q] = [form.elements.show.value, form.elements.q.value];
    const focus = old.contains(document.activeElement) ? document.activeElement.id : "";
    old.replaceWith(next);
    const fresh = next.querySelector("form[data-filters]");
    [fresh.elements.show.value, fresh.elements.q.value] = [show, q];
    listenToFilter();
    filter();
    if (focus) {
      document.getElementById(focus)?.focus({ preventScroll: true });
    }
    return next;
  }

  old.dataset.done = next.dataset.done;
  for (const part of [".lead", "progress"]) {
    const [was, is] = [old.querySelector(part), next.querySelector(part)];
    if (was.outerHTML !== is.outerHTML) {
      was.replaceWith(is);
    }
  }
  const focus = here.contains(document.activeElement) ? document.activeElement.id : "";
  const body = here.tBodies[0];
  const rows = new Map([...body.rows].map((row) => [row.id, row]));
  [...there.tBodies[0].rows].forEach((row, at) => {
    const known = rows.get(row.id);
    rows.delete(row.id);
    if (known && ![...known.cells].every((cell, column) => cell.isEqualNode(row.cells[column]))) {
      known.replaceChildren(...row.childNodes);
    }
    if (known) {
      known.dataset.fits = row.dataset.fits;
    }
    if (body.rows[at] !== (known || row)) {
      body.insertBefore(known || row, body.rows[at] || null);
    }
  });
  rows.forEach((row) => row.remove());
  filter();
  if (focus && document.activeElement?.id !== focus) {
    document.getElementById(focus)?.focus({ preventScroll: true });
  }
  return old;
}

async function keepLive(old, first) {
  await new Promise((resume) => setTimeout(resume, document.hidden ? 5000 : 1500));
  let next;
  try {
    const answer = await fetch(location.pathname, { headers: { accept: "text/html" } });
    next = answer.ok ? new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("live") : null;
  } catch {
    // The service is away; it comes back with the lane as it was.
  }
  if (!next) {
    keepLive(old, first);
    return;
  }

  next = renew(old, next);

  const done = Number(next.dataset.done);
  const all = Number(next.dataset.all);
  const left = next.querySelector(".left");
  if (next.dataset.live === "runs" && done > first.done && left) {
    const seconds = (all - done) * (performance.now() - first.time) / (done - first.done) / 1000;
    left.textContent = ", " + (seconds < 90
      ? left.dataset.seconds.replace("{0}", Math.max(5, 5 * Math.round(seconds / 5)))
      : left.dataset.minutes.replace("{0}", Math.round(seconds / 60)));
  }

  // Spoken at quarters only: a voice that counts every panel is no help.
  const say = document.getElementById("said-live");
  const quarter = Math.floor(4 * done / Math.max(1, all));
  if (say && say.dataset.quarter !== String(quarter)) {
    say.dataset.quarter = String(quarter);
    say.textContent = say.dataset.progress.replace("{0}", done).replace("{1}", all);
  }
  if (next.dataset.live === "runs") {
    keepLive(next, first);
  }
}
