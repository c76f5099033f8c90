import { readFigure, type Writing } from './number.js';
import { type Read, unread } from './read.js';

/** Reads `15,5 °C`, `15.5C`, `59 °F`, `15 degrees`, `−5` (°C where no scale is named); in °C. */
export function readTemperature(text: string, writing: Writing = {}): Read<number> {
  // º and ˚ are typed for ° on some keyboards
  const plain = text.replace(/[º˚]/g, '°').trim();
  const below = /^[-−–]\s*(?=[\d.,])/.exec(plain)?.[0] ?? '';
  const figure = readFigure(plain.slice(below.length), writing);
  if (!figure.ok) return figure;
  const scale = SCALE.exec(figure.value.words)?.groups;
  if (!scale) return unread('other', `"${text.trim()}"`, 'a temperature', 'Write for example "18 °C" or "64 °F".');
  const degrees = below === '' ? figure.value.value : -figure.value.value;
  return { ok: true, value: scale.fahrenheit ? ((degrees - 32) * 5) / 9 : degrees, comma: figure.comma };
}

const SCALE = /^(?:°|deg(?:rees?)?\.?)? *(?:c|celsius|(?<fahrenheit>f|fahrenheit))?$/i;
