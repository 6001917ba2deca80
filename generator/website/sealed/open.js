// Opens a sealed report. The key stands after the # of the link; a browser keeps that
// part to itself, and nothing here sends it anywhere.
"use strict";

const SIGNS = "abcdefghijklmnopqrstuvwxyz234567"; // base32, RFC 4648
const KEY_BYTES = 32;
const KEY_SIGNS = 52; // of 32 bytes in base32
const SAID = {
  missing:
    "The key is missing. Open the whole link that you were given, with all that stands " +
    "after its # sign.",
  cut:
    "The key after the # sign of this link is not whole. Copy the whole link that you " +
    "were given, and open it again.",
  wrong:
    "The key in this link does not open this report. Open the link that you were given " +
    "last.",
  damaged: "This file is damaged or not whole. Load the page again.",
  http:
    "This page came over http, where no browser opens a sealed report. Write https in " +
    "place of http in its address, and open it again.",
  old: "This browser is too old to open a sealed report. Open the link in a newer one.",
};

addEventListener("DOMContentLoaded", start);
addEventListener("hashchange", () => location.reload()); // another key was typed

async function start() {
  const told = document.getElementById("told");
  try {
    show(await unpacked(await unlocked()));
  } catch (reason) {
    told.textContent = SAID[reason] || SAID.damaged;
  }
}

async function unlocked() {
  if (!window.isSecureContext) throw "http";
  if (!window.crypto?.subtle || !window.DecompressionStream) throw "old";
  const key = keyOfLink();
  const sealed = document.getElementById("sealed");
  const bytes = bytesOf(atob(sealed.textContent));
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  const written = btoa(String.fromCharCode(...new Uint8Array(digest)));
  if (written !== sealed.dataset.digest) throw "damaged";
  const nonce = Number(sealed.dataset.nonceBytes);
  const how = {
    name: "AES-GCM",
    iv: bytes.subarray(0, nonce),
    additionalData: bytesOf(sealed.dataset.label),
  };
  const ready = await crypto.subtle.importKey("raw", key, "AES-GCM", false, ["decrypt"]);
  try {
    return await crypto.subtle.decrypt(how, ready, bytes.subarray(nonce));
  } catch {
    throw "wrong";
  }
}

function keyOfLink() {
  const [key] = location.hash.slice(1).toLowerCase().match(/^[a-z2-7]*/);
  if (location.hash.length < 2) throw "missing";
  if (key.length !== KEY_SIGNS) throw "cut";
  const bits = [...key].map((sign) => SIGNS.indexOf(sign).toString(2).padStart(5, "0"));
  const bytes = bits.join("").match(/.{8}/g).slice(0, KEY_BYTES);
  return Uint8Array.from(bytes, (byte) => parseInt(byte, 2));
}

function bytesOf(text) {
  return Uint8Array.from(text, (sign) => sign.charCodeAt(0));
}

function unpacked(packed) {
  const text = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Response(text).text();
}

function show(text) {
  const report = new DOMParser().parseFromString(text, "text/html"); // runs no script
  document.title = report.title;
  document.querySelector("style").replaceWith(report.querySelector("style"));
  document.body.replaceChildren(...report.body.childNodes);
  const pictures = document.images;
  for (const one of pictures) {
    if (one.dataset.same) one.src = pictures[one.dataset.same].src;
  }
  stackTables();
  dress();
  document.addEventListener("click", lead);
}

// The style sheets take their colors from this mark, as on the pages of a site.
function dress() {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const mark = () => {
    document.body.dataset.mdColorScheme = dark.matches ? "slate" : "default";
  };
  dark.addEventListener("change", mark);
  mark();
}

// A link to a place on the page leads there, but leaves the key in the address, so that
// the page can be loaded again or kept. The way back stays.
function lead(event) {
  const link = event.target.closest('a[href^="#"]');
  const place = link && document.getElementById(link.getAttribute("href").slice(1));
  if (!place || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  history.pushState(null, "");
  place.tabIndex = -1;
  place.focus({ preventScroll: true });
  place.scrollIntoView();
}
