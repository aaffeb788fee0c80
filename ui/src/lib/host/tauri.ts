// The program behind the window. Nothing else imports @tauri-apps.
import { invoke, isTauri } from '@tauri-apps/api/core';
import { words } from '../words/words';
import { HostError, type Host } from './host';

/** True inside the window program; a page of `underlath field` is in a browser. */
export const inWindow = isTauri;

export const tauri: Host = {
  async ask(name, args) {
    try {
      return await invoke('ask', { language: words.language, name, args });
    } catch (thrown) {
      throw HostError.from(thrown);
    }
  },
};
