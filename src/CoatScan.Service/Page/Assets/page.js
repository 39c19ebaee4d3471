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
