// Sheets take a moment to set. Show that it is going on, then hand the file over; without scripts
// the same links work, and the browser shows its own progress.
const PATIENCE_MS = 500;
const line = document.getElementById("sheet-at-work");
const done = document.getElementById("sheet-done");
const words = line?.querySelector("p");

async function hand_over(link) {
  const name = link.textContent.trim();
  done.textContent = "";
  words.textContent = `Setting: ${name}`;
  const waiting = setTimeout(() => (line.hidden = false), PATIENCE_MS);
  link.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(link.href, { credentials: "same-origin" });
    if (!answer.ok) throw new Error(answer.status);
    const saved = document.createElement("a");
    saved.download = file_name(answer);
    saved.href = URL.createObjectURL(await answer.blob());
    saved.click();
    setTimeout(() => URL.revokeObjectURL(saved.href), 60_000);
    done.textContent = `${saved.download} is with your downloads.`;
  } catch {
    // The plain link tells what is wrong.
    location.assign(link.href);
  } finally {
    clearTimeout(waiting);
    line.hidden = true;
    link.removeAttribute("aria-busy");
  }
}

function file_name(answer) {
  const told = answer.headers.get("Content-Disposition") || "";
  return /filename="([^"]+)"/.exec(told)?.[1] || "sheet.pdf";
}

for (const link of document.querySelectorAll(".sheets a")) {
  link.addEventListener("click", (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    if (!link.hasAttribute("aria-busy")) hand_over(link);
  });
}
