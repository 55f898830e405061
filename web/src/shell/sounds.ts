// What the phone says without being looked at. A short tick: read, nothing stored yet. A double
// tone: kept on the disk. A low tone with a long vibration: stop and look.
let context: AudioContext | null = null;

// Browsers let a page sound only after a touch; call this from one.
export function allowSound(): void {
  context ??= new AudioContext();
  void context.resume();
}

function tone(frequency: number, from: number, length: number, loud: number): void {
  if (context?.state !== 'running') return;
  const start = context.currentTime + from;
  const sound = context.createOscillator();
  const gain = context.createGain();
  sound.frequency.value = frequency;
  gain.gain.setValueAtTime(loud, start);
  gain.gain.exponentialRampToValueAtTime(0.001, start + length);
  sound.connect(gain).connect(context.destination);
  sound.start(start);
  sound.stop(start + length);
}

export function tick(): void {
  tone(2200, 0, 0.05, 0.25);
  navigator.vibrate?.(20);
}

export function keptTone(): void {
  tone(880, 0, 0.12, 0.4);
  tone(1320, 0.14, 0.16, 0.4);
  navigator.vibrate?.([40, 60, 40]);
}

export function stopTone(): void {
  tone(196, 0, 0.5, 0.6);
  navigator.vibrate?.(600);
}
