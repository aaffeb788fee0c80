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

  it('merge_nothing_into_objects_by_names_that_come_in', () => {
    for (const [path, text] of Object.entries(sources)) expect(text, path).not.toMatch(/Object\.(assign|defineProperty|setPrototypeOf)\(|__proto__|for \((const|let) \w+ in /);
  });

  it('hide_every_password_that_is_typed', () => {
    const fields = Object.values(sources).flatMap((text) => text.match(/<input[^>]*bind:value=\{(password|old|next|again)\}[^>]*>/g) ?? []);
    expect(fields.length).toBeGreaterThanOrEqual(6);
    // One may be shown by a key beside it; until then it is hidden too.
    for (const field of fields) expect(field).toMatch(/type="password"|type=\{shown \? 'text' : 'password'\}/);
    expect(fields.filter((field) => field.includes('shown'))).toHaveLength(1);
    expect(Object.values(sources).join('')).toMatch(/let shown = \$state\(false\);/);
  });

  it('never_put_text_in_as_markup', () => {
    for (const [path, text] of Object.entries(sources)) expect(text, path).not.toMatch(/\{@html|innerHTML/);
  });
});
