// What CSS and HTML cannot do alone. Every page can be read, searched for and printed without this file, except
// that search on a phone needs its button.

// A table or plot that fits needs no stop on the way of the Tab key; one that scrolls does.
const scrolls = new ResizeObserver((entries) => {
  for (const { target } of entries) {
    if (target.scrollWidth > target.clientWidth) target.setAttribute("tabindex", "0");
    else target.removeAttribute("tabindex");
  }
});
document.querySelectorAll(".table-region, .plot__drawing").forEach((region) => scrolls.observe(region));

// The theme opens its search by a hidden checkbox that no key reaches; this button is the way to it on a phone.
const search = document.querySelector("#__search");
const query = document.querySelector(".md-search__input");
document.querySelector(".bar__find").addEventListener("click", () => {
  search.checked = true;
  search.dispatchEvent(new Event("change"));
  query.focus();
});
// The theme listens for keys; text that is pasted or spoken gives none.
query.addEventListener("input", () => query.dispatchEvent(new KeyboardEvent("keyup")));

// Contents that are open over the page close when a link in them is followed, also within the same page.
document.querySelector("#contents").addEventListener("click", (event) => {
  if (event.target.closest("a") && event.currentTarget.matches(":popover-open")) event.currentTarget.hidePopover();
});
