// Which screen is open: its path, kept in the address so that back and reload do what they say.
import { signal } from '@preact/signals';

export const path = signal(location.pathname);

addEventListener('popstate', () => {
  path.value = location.pathname;
});

export function go(to: string, replace = false): void {
  if (replace) history.replaceState(null, '', to);
  else if (to !== location.pathname + location.search) history.pushState(null, '', to);
  path.value = location.pathname;
  scrollTo(0, 0);
}

// Lets ordinary links work without loading the page again.
export function follow(event: MouseEvent): void {
  const link = (event.target as Element).closest('a');
  if (!link || link.origin !== location.origin || link.target || event.metaKey || event.ctrlKey)
    return;
  event.preventDefault();
  go(link.pathname + link.search);
}
