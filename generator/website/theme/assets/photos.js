// A photograph opens large over its page. All photographs of the page lie in one row
// that snaps from one to the next, so that a swipe is the browser's own scrolling.
// Without this script each photograph is a plain link to its large picture.
const links = new Map(); // by address, since two findings may show one photograph
for (const link of document.querySelectorAll(".photos a[href]")) {
  if (!links.has(link.href)) links.set(link.href, link);
  link.setAttribute("aria-haspopup", "dialog");
  link.addEventListener("click", (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return; // a tab of its own
    event.preventDefault();
    enlarge(link);
  });
}

const dialog = document.createElement("dialog");
const count = document.createElement("p");
const row = document.createElement("div");
const places = []; // one for each photograph, in the order of the page
let at = 0;
let opener = null;

function button(words, sign, press) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = sign;
  made.setAttribute("aria-label", words);
  made.addEventListener("click", press);
  return made;
}

const back = button("Previous photograph", "\u2190", () => go(at - 1));
const next = button("Next photograph", "\u2192", () => go(at + 1));
const shut = button("Close", "\u00d7", () => dialog.close());

function place(link, address) {
  const figure = document.createElement("figure");
  const picture = link.querySelector("img").cloneNode();
  const words = link.closest("figure").querySelector("figcaption");
  picture.dataset.large = address;
  picture.removeAttribute("loading");
  figure.append(picture);
  if (words) figure.append(words.cloneNode(true));
  return figure;
}

function build() {
  dialog.className = "large";
  dialog.setAttribute("aria-label", "Photographs");
  const bar = document.createElement("div");
  bar.className = "large-bar";
  count.setAttribute("aria-live", "polite");
  bar.append(shut, count, back, next);
  row.className = "large-row";
  row.tabIndex = 0; // what scrolls can be reached with a keyboard
  for (const [address, link] of links) places.push(place(link, address));
  row.append(...places);
  dialog.append(bar, row);
  document.body.append(dialog);
}

// The large picture is fetched only where it is looked at, or next to that.
function see(number) {
  at = number;
  count.textContent = `${at + 1} of ${places.length}`;
  back.setAttribute("aria-disabled", at === 0);
  next.setAttribute("aria-disabled", at === places.length - 1);
  places.forEach((figure, other) => {
    figure.inert = other !== at;
    const picture = figure.querySelector("img");
    if (Math.abs(other - at) > 1 || !picture.dataset.large) return;
    picture.src = picture.dataset.large;
    delete picture.dataset.large;
  });
}

function go(number) {
  if (number < 0 || number >= places.length) return;
  row.scrollTo({ left: number * row.clientWidth, behavior: "instant" });
  see(number);
}

function enlarge(link) {
  opener = link;
  if (!places.length) build();
  dialog.showModal();
  shut.focus();
  go([...links.keys()].indexOf(link.href));
  history.pushState({ large: true }, ""); // so that "back" closes it
}

row.addEventListener("scroll", () => {
  const number = Math.round(row.scrollLeft / row.clientWidth);
  if (dialog.open && number !== at) see(number);
});
dialog.addEventListener("keydown", (event) => {
  const steps = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
  if (!steps) return;
  event.preventDefault();
  go(at + steps);
});
dialog.addEventListener("close", () => {
  if (history.state?.large) history.back();
  opener.focus();
});
addEventListener("popstate", () => dialog.open && dialog.close());
addEventListener("resize", () => dialog.open && go(at));
