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

async function sendFolder(form) {
  const note = form.querySelector(".busy");
  const bar = form.querySelector("progress");
  const vehicles = vehiclesOf([...form.querySelector("input[type=file]").files]);
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
        files.forEach((file) => part.append("photos", file, file.webkitRelativePath));
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
function vehiclesOf(files) {
  const vehicles = new Map();
  for (const file of files.filter((one) => /\.(jpe?g|png)$/i.test(one.name))) {
    const parts = file.webkitRelativePath.split("/");
    if (parts.length < 3) {
      vehicles.outside = file.name;
      continue;
    }
    vehicles.set(parts[1], [...(vehicles.get(parts[1]) || []), file]);
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

// A lane that is being graded is kept up to date where it stands.
const live = document.getElementById("live");
if (live?.dataset.live === "runs") {
  keepLive(live, { time: performance.now(), done: Number(live.dataset.done) });
}

async function keepLive(old, first) {
  await new Promise((resume) => setTimeout(resume, document.hidden ? 5000 : 1500));
  let next;
  try {
    const answer = await fetch(location.href, { headers: { accept: "text/html" } });
    next = answer.ok ? new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("live") : null;
  } catch {
    // The service is away; it comes back with the lane as it was.
  }
  if (!next) {
    keepLive(old, first);
    return;
  }

  // What is typed into the filter, and where the reader stands, stays.
  const typed = document.getElementById("q")?.value;
  const focus = document.activeElement && old.contains(document.activeElement) ? document.activeElement.id : "";
  if (next.innerHTML !== old.dataset.plain) {
    const plain = next.innerHTML;
    old.replaceWith(next);
    next.dataset.plain = plain;
    const field = document.getElementById("q");
    if (field && typed !== undefined) {
      field.value = typed;
    }
    if (focus) {
      document.getElementById(focus)?.focus({ preventScroll: true });
    }
    next.querySelectorAll("select[data-submits]").forEach((select) => select.addEventListener("change", () => select.form.requestSubmit()));
  } else {
    next = old;
  }

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
