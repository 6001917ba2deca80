// Search within the report. Its index and the theme's worker are fetched when a reader
// first opens it. A page opened from a folder may start no worker: the button, which
// the page brings hidden, then stays hidden, as it does without this script.
(() => {
  const MOST = 20; // results shown; our choice
  const BEFORE = 60; // signs of a passage shown ahead of the word found; our choice
  const SMALL = "a an and are at by for from in is it of on the to was".split(" ");
  const FIRST = "Type a word, such as baffle or well.";
  const FAILED = "Search does not work just now. All pages are in the list of pages.";
  const [SETUP, READY, QUERY] = [0, 1, 2]; // what the worker is told and tells

  const opener = document.querySelector(".search-open");
  if (!opener || !location.protocol.startsWith("http") || !window.Worker) return;
  const { content } = Object.assign(document.createElement("template"), {
    innerHTML: `
      <dialog class="search" aria-label="Search this report">
        <div class="search-bar">
          <label for="search-words">Search this report</label>
          <button type="button" class="search-shut">Close</button>
          <input type="search" id="search-words" autocomplete="off" spellcheck="false"
            enterkeyhint="go">
        </div>
        <p class="search-told" role="status"></p>
        <ol class="search-found"></ol>
      </dialog>`,
  });
  const dialog = content.querySelector("dialog");
  const words = dialog.querySelector("input");
  const told = dialog.querySelector(".search-told");
  const found = dialog.querySelector(".search-found");
  const site = JSON.parse(document.getElementById("__config").textContent);
  const base = new URL(`${site.base}/`, location.href);
  let worker = null;
  let ready = false;
  let asked = "";
  let order = []; // every place of the report, page by page
  const pages = [...document.querySelectorAll(".md-nav--primary a.md-nav__link")].map(
    (link) => new URL(link.href).pathname,
  ); // as the list of pages has them

  async function start() {
    told.textContent = "One moment.";
    try {
      worker = new Worker(new URL(site.search, location.href));
      worker.addEventListener("message", hear);
      worker.addEventListener("error", fail);
      const answer = await fetch(new URL("search/search_index.json", base));
      if (!answer.ok) throw new Error(answer.statusText);
      const { config, docs } = await answer.json();
      order = docs.map((one) => one.location);
      worker.postMessage({ type: SETUP, data: { config, docs, options: {} } });
    } catch {
      fail();
    }
  }

  function fail() {
    worker?.terminate();
    worker = null; // opened again, it tries again
    ready = false;
    told.textContent = FAILED;
    found.replaceChildren();
  }

  function hear({ data: { type, data } }) {
    if (type === READY) {
      ready = true;
      ask();
    } else if (asked) show(data.items.flat());
  }

  // The worker's query language is kept out: a reader types words.
  function ask() {
    if (!ready) return;
    const plain = words.value.replace(/[-+~^:*"]/g, " ").split(/\s+/).filter(Boolean);
    const telling = plain.filter((word) => !SMALL.includes(word.toLowerCase()));
    asked = (telling.length ? telling : plain).join(" ");
    if (asked) worker.postMessage({ type: QUERY, data: asked });
    else {
      found.replaceChildren();
      told.textContent = FIRST;
    }
  }

  // Places that hold the most of the words: first those that name them in their
  // heading, then in the order of the report.
  function show(all) {
    const hits = (one) => Object.values(one.terms).filter(Boolean).length;
    const best = Math.max(...all.map(hits));
    const named = (one) => Math.min(best, one.title.split("<mark>").length - 1);
    const places = all.filter(
      (one) => one.score > 0 && hits(one) === best && !all.some((two) => again(one, two)),
    );
    const page = (one) => pages.indexOf(new URL(one.location, base).pathname);
    const at = (one) => order.indexOf(one.location);
    places.sort(
      (one, two) =>
        named(two) - named(one) || page(one) - page(two) || at(one) - at(two),
    );
    found.replaceChildren(...places.slice(0, MOST).map(entry));
    found.scrollTop = 0;
    told.textContent = count(places.length);
  }

  // A page as a whole and its first heading are one place.
  function again(one, two) {
    return two.parent?.location === one.location && two.title === one.title;
  }

  function count(number) {
    if (number === 0) return "Nothing in this report has that word.";
    if (number === 1) return "1 place.";
    return number > MOST ? `${number} places. The first ${MOST}:` : `${number} places.`;
  }

  function entry(place) {
    const item = document.createElement("li");
    const link = document.createElement("a");
    link.href = new URL(place.location, base);
    link.append(part("strong", marked(place.title)));
    const page = (place.parent ?? place).title;
    if (page !== place.title.replace(/<\/?mark>/g, "")) {
      link.append(part("small", marked(page)));
    }
    if (place.text) link.append(part("span", marked(shortened(place.text))));
    item.append(link);
    return item;
  }

  function part(name, nodes) {
    const made = document.createElement(name);
    made.append(...nodes);
    return made;
  }

  // Of the markup that comes with a text only the marks on what was found are kept.
  function marked(html) {
    const kept = html.replace(/<(?!\/?mark>)[^>]*>/g, " ");
    return new DOMParser().parseFromString(kept, "text/html").body.childNodes;
  }

  function shortened(html) {
    const plain = html.replace(/<(?!\/?mark>)[^>]*>/g, " ");
    const from = plain.indexOf(" ", plain.indexOf("<mark>") - BEFORE);
    return plain.indexOf("<mark>") > BEFORE ? `…${plain.slice(from)}` : plain;
  }

  opener.hidden = false;
  opener.addEventListener("click", () => {
    document.body.append(content); // empty from the second time on
    dialog.showModal();
    words.focus();
    words.select();
    if (!worker) start();
  });
  words.addEventListener("input", ask);
  dialog.querySelector(".search-shut").addEventListener("click", () => dialog.close());
  dialog.addEventListener("click", ({ target }) => {
    if (target === dialog || target.closest("a")) dialog.close(); // beside it, or away
  });
  dialog.addEventListener("keydown", (event) => {
    event.stopPropagation(); // single keys turn pages elsewhere
    if (event.key === "Enter" && event.target === words) {
      found.querySelector("a")?.click();
    }
  });
})();
