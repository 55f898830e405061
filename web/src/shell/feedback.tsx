// The full-screen word after something was kept, and the one that stops a mistake before it.
import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import './feedback.css';
import { keptTone, stopTone } from './sounds.ts';

const SHOWN_MS = 1400;

const word = signal('');
let timer: ReturnType<typeof setTimeout> | undefined;

// Say this only once the record is on the disk.
export function sayKept(text: string): void {
  keptTone();
  word.value = text;
  clearTimeout(timer);
  timer = setTimeout(() => {
    word.value = '';
  }, SHOWN_MS);
}

interface Stop {
  title: string;
  text: string;
  choices: { label: string; answer: string; main?: boolean }[];
  settle: (answer: string) => void;
}
const stop = signal<Stop | null>(null);

// Stops with word, tone and vibration, and resolves with the answer chosen.
export function ask(title: string, text: string, choices: Stop['choices']): Promise<string> {
  stopTone();
  return new Promise((settle) => {
    stop.value = {
      title,
      text,
      choices,
      settle: (answer) => {
        stop.value = null;
        settle(answer);
      },
    };
  });
}

export function Feedback() {
  const dialog = useRef<HTMLDialogElement>(null);
  const asked = stop.value;
  useEffect(() => {
    if (asked && !dialog.current?.open) dialog.current?.showModal();
  }, [asked]);
  return (
    <>
      <output class={`kept-word${word.value ? ' shown' : ''}`} aria-live="assertive">
        {word.value}
      </output>
      {asked && (
        <dialog
          ref={dialog}
          class="stop"
          aria-labelledby="stop-title"
          onCancel={(event) => {
            event.preventDefault();
            asked.settle('');
          }}
        >
          <h2 id="stop-title">{asked.title}</h2>
          <p>{asked.text}</p>
          {asked.choices.map((choice) => (
            <button
              type="button"
              key={choice.answer}
              class={choice.main ? 'main' : ''}
              onClick={() => asked.settle(choice.answer)}
            >
              {choice.label}
            </button>
          ))}
        </dialog>
      )}
    </>
  );
}
