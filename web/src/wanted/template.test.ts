import { afterEach, expect, it, vi } from 'vitest';
import { addressOf, fetchTemplate, nameIn, paperFor, readyWords } from './template.ts';

const FILE = new Blob(['%PDF-']);

function answering(answer: () => Response | Promise<Response>): void {
  vi.stubGlobal('fetch', async () => answer());
}
afterEach(() => vi.unstubAllGlobals());

it('asks for the paper of the unit', () => {
  expect([paperFor('in'), paperFor('mm')]).toEqual(['letter', 'a4']);
  expect(addressOf('01-a', 'pdf', 'a4')).toBe('/api/wanted/01-a/template.pdf?paper=a4');
});

it('brings the file with its name and its pages', async () => {
  const headers = {
    'Content-Disposition': 'attachment; filename="template-a-shim.pdf"',
    'Bucktail-Pages': '3',
  };
  answering(() => new Response(FILE, { headers }));
  const made = await fetchTemplate('x', 'pdf', 'a4');
  expect(made).toMatchObject({ form: 'pdf', name: 'template-a-shim.pdf', pages: 3 });
  expect(await made.file.text()).toBe('%PDF-');
  expect(readyWords(made)).toContain('3 pages. Print at actual size');
  expect(readyWords({ ...made, pages: 1 })).toContain('1 page.');
  expect(readyWords({ ...made, form: 'dxf', pages: 0 })).toContain('The DXF is at full size');
});

it('says what to do where the computer is out of reach, and what it refused', async () => {
  answering(() => Promise.reject(new TypeError('offline')));
  await expect(fetchTemplate('x', 'pdf', 'a4')).rejects.toThrow('try again within its reach');
  const told = { problem: 'too large', sentence: 'Take the DXF.' };
  answering(() => Response.json(told, { status: 422 }));
  await expect(fetchTemplate('x', 'pdf', 'a4')).rejects.toThrow(/^Take the DXF\.$/);
});

it('has a name of its own where the answer brings none', () => {
  expect([nameIn(null), nameIn('attachment')]).toEqual(['', '']);
});
