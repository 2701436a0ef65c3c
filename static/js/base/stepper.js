// [data-stepper]: a number field between two buttons marked data-step="-1" and data-step="1".
for (const stepper of document.querySelectorAll("[data-stepper]")) {
  const field = stepper.querySelector("input");
  const buttons = [...stepper.querySelectorAll("[data-step]")];
  const mark = () => {
    for (const button of buttons) {
      const end = button.dataset.step < 0 ? field.min : field.max;
      button.setAttribute("aria-disabled", String(end !== "" && field.value === end));
    }
  };
  for (const button of buttons) {
    button.hidden = false;
    button.addEventListener("click", () => {
      if (button.dataset.step < 0) field.stepDown();
      else field.stepUp();
      field.dispatchEvent(new Event("change", { bubbles: true }));
    });
  }
  field.addEventListener("input", mark);
  field.addEventListener("change", mark);
  mark();
}
