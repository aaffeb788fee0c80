// The words of the office's screens, added to those that all screens share. Only the page of the office carries them.
import { FluentResource } from '@fluent/bundle';
import en from '../../../words/en/office-screens.ftl?raw';
import es from '../../../words/es/office-screens.ftl?raw';
import { words, type Words } from '../lib/words/words';

const files = { en, es, qps: en };

export function withOffice(all: Words): Words {
  all.bundle.addResource(new FluentResource(files[all.language]));
  return all;
}

withOffice(words);

export { words };
