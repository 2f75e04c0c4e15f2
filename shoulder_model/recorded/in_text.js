// Recorded panels among text: each comes to life by itself.
for (const box of document.querySelectorAll(".recorded"))
  play(box, { picture, slider }).catch(() => { box.querySelector(".asleep").textContent = ASLEEP; });
