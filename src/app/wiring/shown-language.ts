import { SettingsShelf } from '../../edges/store/settings.ts';
import { type Language, languageOf } from '../../words/languages.ts';

/** The language that was chosen on this device, else what the system wishes for. */
export function shownLanguage(): Language {
  return languageOf(new SettingsShelf().read().language, navigator.languages);
}
