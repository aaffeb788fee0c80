// Language and light as they are set on this device. The program keeps them; the page keeps a copy, so that the first
// screen is right before the program has been asked.
import type { ScreensView } from '../bindings/views';

const LANGUAGE = 'underlath-language';
const LIGHT = 'underlath-light';

function kept(name: string): string | null {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

function keep(name: string, value: string | null) {
  try {
    if (value === null) localStorage.removeItem(name);
    else localStorage.setItem(name, value);
  } catch {
    // Without a place for a copy the program is asked each time.
  }
}

/** The language as it was set when the page was shown last. */
export const keptLanguage = () => (typeof localStorage === 'undefined' ? null : kept(LANGUAGE));

/** Keeps a language chosen on this page alone, where no device is set. */
export const keepLanguage = (language: string) => keep(LANGUAGE, language);

/** Shows the page in the light it is set to, or as the device. */
export function showLight(light: string | null = kept(LIGHT)) {
  const root = document.documentElement;
  if (light === null) delete root.dataset['theme'];
  else root.dataset['theme'] = light === 'dark' ? 'dark' : 'light';
}

/** Takes over what the program says. True when the page is in another language than it is set to and has to be read
 *  again. */
export function agree(settings: ScreensView): boolean {
  keep(LIGHT, settings.light);
  showLight(settings.light);
  if (kept(LANGUAGE) === settings.language) return false;
  keep(LANGUAGE, settings.language);
  return kept(LANGUAGE) === settings.language;
}
