// Whether this is the installed app or a browser tab, and whether it is one of the phones where
// that makes two different places to keep things.

export function isInstalled(): boolean {
  const { standalone } = navigator as { standalone?: boolean }; // only on iPhone and iPad
  return standalone === true || matchMedia('(display-mode: standalone)').matches;
}

// An iPad says that it is a Mac; a Mac has no touch screen.
export function isIphone(): boolean {
  const { userAgent, maxTouchPoints } = navigator;
  return /iPhone|iPad|iPod/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 1);
}
