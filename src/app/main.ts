import { loadWords } from '../words/load-words.ts';
import { shownLanguage } from './wiring/shown-language.ts';

const language = shownLanguage();
document.documentElement.lang = language;

// The words come first: what is evaluated after this finds them in the language that is shown. No
// `await` out here: parts of the app share a file with this one, and would wait for it for ever.
void loadWords(language)
  .then(() => import('./start.ts'))
  .then(({ start }) => {
    // A breath between the two long pieces of work: a slow phone answers a touch in it.
    setTimeout(start, 0, language);
  });
