// A text is copied in one tap; without scripts it is selected and copied by hand.
for (const button of document.querySelectorAll("[data-copy]")) {
  const text = document.getElementById(button.dataset.copy);
  const said = document.getElementById("copied");
  button.hidden = false;
  button.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(text.value);
      said.textContent = "Copied.";
    } catch {
      text.focus();
      text.select();
      said.textContent = "Selected: copy it with the keyboard.";
    }
  });
}
