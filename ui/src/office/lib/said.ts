// Messages for words of the program.
import type { BorneView, OutcomeView } from '../../lib/bindings/views';
import type { Role, Split } from '../host/host';

export const OUTCOME: Record<OutcomeView, string> = { found: 'outcome-found', 'not-there': 'outcome-not-there', 'not-opened': 'outcome-not-opened' };

/** The letter of an outcome on the keyboard, in this language. */
export const LETTER: Record<OutcomeView, string> = { found: 'letter-found', 'not-there': 'letter-not-there', 'not-opened': 'letter-not-opened' };

export const BORNE_SAID: Record<BorneView, string> = {
  'in-price': 'borne-in-price', allowance: 'borne-allowance', 'change-order': 'borne-change-order', absorbed: 'borne-absorbed', 'not-said': 'borne-not-said',
};

export const ROLE: Record<Role, string> = { estimator: 'role-estimator', office: 'role-office', reviewer: 'role-reviewer', owner: 'role-owner' };
export const ROLE_HOW: Record<Role, string> = { estimator: 'role-estimator-how', office: 'role-office-how', reviewer: 'role-reviewer-how', owner: 'role-owner-how' };

/** What is noted in the audit log; a word that a newer program writes is shown as it is. */
export const DEED: Record<string, string> = {
  'set-up': 'deed-set-up', 'signed-in': 'deed-signed-in', 'wrong-password': 'deed-wrong-password', locked: 'deed-locked', unlocked: 'deed-unlocked',
  'signed-out': 'deed-signed-out', 'password-changed': 'deed-password-changed', 'person-added': 'deed-person-added', 'role-set': 'deed-role-set',
  'person-removed': 'deed-person-removed', 'packet-received': 'deed-packet-received', 'finding-entered': 'deed-finding-entered',
  'learning-accepted': 'deed-learning-accepted', 'learning-refused': 'deed-learning-refused',
  'catalog-published': 'deed-catalog-published', 'packet-refused': 'deed-packet-refused',
  'tablet-invited': 'deed-tablet-invited', 'tablet-paired': 'deed-tablet-paired', 'tablet-revoked': 'deed-tablet-revoked', 'key-revoked': 'deed-key-revoked', 'key-made': 'deed-key-made', restored: 'deed-restored',
  'sessions-ended': 'deed-sessions-ended', 'second-factor-set': 'deed-second-factor-set', 'second-factor-dropped': 'deed-second-factor-dropped',
  'second-factor-demanded': 'deed-second-factor-demanded', 'second-factor-left-free': 'deed-second-factor-left-free', 'wrong-code': 'deed-wrong-code', 'code-asked': 'deed-code-asked', 'had-to-wait': 'deed-had-to-wait', 'wrong-link': 'deed-wrong-link', 'not-allowed': 'deed-not-allowed', 'request-refused': 'deed-request-refused', fault: 'deed-fault', 'house-closed': 'deed-house-closed', 'house-opened': 'deed-house-opened', 'house-shown': 'deed-house-shown', 'house-hidden': 'deed-house-hidden',
};

/** How a result of a calculation stands. */
export const STANDING: Record<string, string> = {
  within: 'stands-within', near: 'stands-near', beyond: 'stands-beyond', 'ask-locally': 'stands-ask', 'cannot-say': 'stands-open', quantity: 'stands-quantity',
};

/** By what a track record is split. */
export const SPLIT: Record<Split, string> = { all: 'track-all', condition: 'split-condition', era: 'split-era', scope: 'split-scope', surveyor: 'split-surveyor', month: 'split-month' };

/** Why houses are not in the record. */
export const OUT: Record<string, string> = {
  'no-findings': 'out-no-findings', 'no-forecast-in-time': 'out-no-forecast-in-time', 'nothing-opened': 'out-nothing-opened', 'catalog-saw-it': 'out-catalog-saw-it',
};

/** Sums of houses that were opened whole, and of those in which a place stayed closed. */
export const SUMS = { money: { whole: 'money-whole', part: 'money-part' }, days: { whole: 'days-whole', part: 'days-part' } } as const;
