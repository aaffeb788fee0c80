import { afterEach, describe, expect, it, vi } from 'vitest';
import { HostError } from './host';
import { http } from './http';

function answering(status: number, body: string) {
  const asked = vi.fn(async (..._asked: [string, RequestInit]) => new Response(body, { status }));
  vi.stubGlobal('fetch', asked);
  return asked;
}

describe('the door over HTTP', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('asks_by_name_with_arguments_in_json_and_in_its_language', async () => {
    const asked = answering(200, '{"survey":"0195"}');
    expect(await http.ask('walk', { survey: '0195', key: 'sink-mount' })).toEqual({ survey: '0195' });
    const [path, sent] = asked.mock.calls[0]!;
    expect(path).toBe('/ask/walk');
    expect(sent.method).toBe('POST');
    expect(sent.credentials).toBe('same-origin');
    expect(sent.redirect).toBe('error');
    expect(sent.headers).toEqual({ 'content-type': 'application/json', 'x-underlath-language': 'en' });
    expect(JSON.parse(String(sent.body))).toEqual({ survey: '0195', key: 'sink-mount' });
  });

  it('hands_on_null_for_what_was_broken_off', async () => {
    answering(200, 'null');
    expect(await http.ask('look-next', { survey: '0195' })).toBeNull();
  });

  it('hands_on_a_refusal_with_kind_message_and_hint', async () => {
    answering(404, '{"kind":"missing","message":"no such house","hint":"look at the list"}');
    const refused = await http.ask('house', { survey: 'x' }).catch((thrown: unknown) => thrown);
    expect(refused).toBeInstanceOf(HostError);
    expect(refused).toMatchObject({ kind: 'missing', message: 'no such house', hint: 'look at the list' });
  });

  it('sends_a_photograph_as_bytes_with_house_item_and_name_beside_them', async () => {
    const asked = answering(200, '{"digest":"3f2a","known":false,"complaints":[],"notes":[]}');
    const bytes = new Blob([new Uint8Array([0xff, 0xd8])]);
    expect((await http.takePhoto({ survey: '0195', key: 'stub-height@a', name: 'küche & bad.jpg', bytes })).digest).toBe('3f2a');
    const [path, sent] = asked.mock.calls[0]!;
    expect([...new URL(path, 'http://here').searchParams]).toEqual([['survey', '0195'], ['name', 'küche & bad.jpg'], ['key', 'stub-height@a']]);
    expect([sent.method, sent.body]).toEqual(['POST', bytes]);
  });

  it('fetches_a_picture_as_bytes_and_says_why_there_is_none', async () => {
    const asked = answering(200, 'jpeg');
    expect((await http.picture('sha256:00')).size).toBe(4);
    expect([asked.mock.calls[0]![0], asked.mock.calls[0]![1].method]).toEqual(['/picture/sha256%3A00', 'GET']);
    expect((await http.thumbnail('sha256:00')).size).toBe(4);
    expect(asked.mock.calls[1]![0]).toBe('/thumbnail/sha256%3A00');
    answering(404, '{"kind":"missing","message":"no such photograph","hint":null}');
    await expect(http.picture('x')).rejects.toMatchObject({ kind: 'missing', message: 'no such photograph' });
  });

  it('says_what_to_do_when_the_program_was_ended', async () => {
    vi.stubGlobal('fetch', async () => {
      throw new TypeError('failed to fetch');
    });
    const refused = await http.ask('houses', {}).catch((thrown: unknown) => thrown);
    expect(refused).toMatchObject({ kind: 'internal' });
    expect(String((refused as HostError).hint)).toContain('underlath field');
  });

  it('tells_an_answer_that_is_no_json_by_its_status', async () => {
    answering(502, '<html>');
    await expect(http.ask('houses', {})).rejects.toMatchObject({ kind: 'internal', message: 'HTTP 502' });
  });
});
