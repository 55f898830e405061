// Puts light or evening, and left or right hand, into effect before anything is drawn, and again
// whenever one of them changes. A file of its own because the content policy allows no inline script.
(() => {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const look = () => {
    const { dataset } = document.documentElement;
    const theme = localStorage.getItem('theme');
    const evening = theme === 'evening' || (theme !== 'light' && dark.matches);
    dataset.theme = evening ? 'evening' : 'light';
    dataset.hand = localStorage.getItem('hand') === 'left' ? 'left' : 'right';
    const bar = document.querySelector('meta[name="theme-color"]');
    if (bar) bar.content = evening ? '#141311' : '#faf9f5';
  };
  look();
  dark.addEventListener('change', look);
  for (const name of ['look', 'storage']) addEventListener(name, look);
})();
