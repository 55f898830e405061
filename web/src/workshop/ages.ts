// How long ago, in words, as coarse as a person would say it.
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

export function age(ms: number): string {
  if (ms < MINUTE) return 'less than a minute';
  if (ms < HOUR) return counted(ms / MINUTE, 'minute');
  if (ms < 2 * DAY) return counted(ms / HOUR, 'hour');
  return counted(ms / DAY, 'day');
}

export function ago(at: number, now: number): string {
  return now - at < MINUTE ? 'just now' : `${age(now - at)} ago`;
}

function counted(number: number, word: string): string {
  const whole = Math.floor(number);
  return `${whole} ${word}${whole === 1 ? '' : 's'}`;
}

// What is left of a short time: "4:05".
export function clockLeft(ms: number): string {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
