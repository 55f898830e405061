// How Bucktail looks on this device. Kept outside the workshop's own storage, because it must be
// known before the first picture: public/first-look.js reads it while the page is still blank.

export type Theme = 'phone' | 'light' | 'evening';
export type Hand = 'right' | 'left';

export function theme(): Theme {
  const kept = localStorage.getItem('theme');
  return kept === 'light' || kept === 'evening' ? kept : 'phone';
}

export function hand(): Hand {
  return localStorage.getItem('hand') === 'left' ? 'left' : 'right';
}

function keep(name: string, value: string): void {
  localStorage.setItem(name, value);
  dispatchEvent(new Event('look')); // first-look.js puts it into effect
}

export function chooseTheme(chosen: Theme): void {
  keep('theme', chosen);
}

export function chooseHand(chosen: Hand): void {
  keep('hand', chosen);
}
