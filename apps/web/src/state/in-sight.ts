/**
 * Whether a station of the page can be seen: what cannot need not be up to date in the very frame
 * that answers a keystroke.
 */

/** Stations known to lie outside the window; those not yet looked at count as seen. */
const away = new WeakSet<Element>();

const observer = new IntersectionObserver(
  (entries) => {
    for (const { target, isIntersecting } of entries) {
      if (isIntersecting) away.delete(target);
      else away.add(target);
    }
  },
  { rootMargin: '10%' },
);

/** The element of the page's own tree that holds `host`, however deep; it is watched from now on. */
export function watchStationOf(host: Element): Element {
  let station = host;
  for (let root = host.getRootNode(); root instanceof ShadowRoot; root = root.host.getRootNode()) {
    // The page itself is never out of sight, and its host lies in no shadow tree.
    if (!(root.host.getRootNode() instanceof ShadowRoot)) break;
    station = root.host;
  }
  observer.observe(station);
  return station;
}

/** Seen, or worked in: the focus may have come before the page has scrolled to it. */
export function isInSight(station: Element): boolean {
  return !away.has(station) || station.matches(':focus-within');
}
