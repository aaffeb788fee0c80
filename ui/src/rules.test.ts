// Rules of the house that a type cannot hold.
import { describe, expect, it } from 'vitest';

const sources = import.meta.glob<string>(['./**/*.{ts,svelte,css}', '!./**/*.test.ts'], {
  query: '?raw',
  import: 'default',
  eager: true,
});

describe('the screens', () => {
  it('reach_the_program_through_one_door_only', () => {
    const doors = Object.keys(sources).filter((path) => sources[path]!.includes('@tauri-apps/'));
    expect(doors).toEqual(['./lib/host/tauri.ts']);
  });

  it('load_nothing_from_outside', () => {
    for (const [path, text] of Object.entries(sources)) {
      expect(text, path).not.toMatch(/https?:\/\/|@import/);
      // The doors that ask over HTTP, and only their own origin.
      if (path !== './lib/host/http.ts' && path !== './office/host/http.ts') expect(text, path).not.toMatch(/fetch\(|XMLHttpRequest/);
    }
  });

  it('keep_every_color_in_the_tokens', () => {
    for (const [path, text] of Object.entries(sources)) {
      if (path !== './look/tokens.css') expect(text, path).not.toMatch(/#[0-9a-fA-F]{3,8}\b(?!\/)|rgba?\(|hsla?\(/);
    }
  });

  it('use_no_pattern_that_an_older_web_view_cannot_read', () => {
    for (const [path, text] of Object.entries(sources)) expect(text, path).not.toMatch(/\(\?<[=!]/);
  });

  it('of_the_tablet_carry_nothing_of_the_office', () => {
    for (const [path, text] of Object.entries(sources)) {
      if (!path.startsWith('./office/')) expect(text, path).not.toMatch(/\/office\//);
    }
  });

  it('never_put_text_in_as_markup', () => {
    for (const [path, text] of Object.entries(sources)) expect(text, path).not.toMatch(/\{@html|innerHTML/);
  });
});
