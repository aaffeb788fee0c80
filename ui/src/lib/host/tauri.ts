// The program behind the window. Nothing else imports @tauri-apps.
import { invoke } from '@tauri-apps/api/core';
import type { HouseCard, HouseView } from '../bindings/views';
import { words } from '../words/words';
import { HostError, type Host } from './host';

async function ask<T>(command: string, args: Record<string, unknown> = {}): Promise<T> {
  try {
    return await invoke<T>(command, args);
  } catch (thrown) {
    throw HostError.from(thrown);
  }
}

export const tauri: Host = {
  houses: () => ask<HouseCard[]>('houses', { language: words.language }),
  house: (survey) => ask<HouseView>('house', { language: words.language, survey }),
};
