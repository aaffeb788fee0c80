// The program behind the window. Nothing else imports @tauri-apps.
import { invoke, isTauri } from '@tauri-apps/api/core';
import { words } from '../words/words';
import { HostError, type Host } from './host';

/** True inside the window program; a page of `underlath field` is in a browser. */
export const inWindow = isTauri;

export const tauri: Host = {
  ask: (name, args) => told(invoke('ask', { language: words.language, name, args })),
  // The bytes are the body; what goes beside them stands in a header, which holds plain letters only.
  takePhoto: async ({ survey, key, name, bytes }) => {
    const beside = plain(JSON.stringify({ survey, key, name, language: words.language }));
    return told(invoke('take_photo', new Uint8Array(await bytes.arrayBuffer()), { headers: { 'x-underlath-photo': beside } }));
  },
  pairPhoto: async (bytes) => told(invoke('pair_photo', new Uint8Array(await bytes.arrayBuffer()), { headers: { 'x-underlath-photo': plain(JSON.stringify({ language: words.language })) } })),
  picture: (digest) => jpeg('picture', digest),
  thumbnail: (digest) => jpeg('thumbnail', digest),
};

async function jpeg(size: 'picture' | 'thumbnail', digest: string): Promise<Blob> {
  return new Blob([await told(invoke<ArrayBuffer>(size, { language: words.language, digest }))], { type: 'image/jpeg' });
}

/** JSON in plain letters: everything else as the escape JSON has for it. */
export function plain(json: string): string {
  return json.replace(/[\u007f-\uffff]/g, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

async function told<T>(answer: Promise<T>): Promise<T> {
  try {
    return await answer;
  } catch (thrown) {
    throw HostError.from(thrown);
  }
}
