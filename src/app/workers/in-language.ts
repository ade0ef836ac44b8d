import { languageOf } from '../../words/languages.ts';
import { loadWords } from '../../words/load-words.ts';

/**
 * Answers a worker's messages in their order by what `make` gives, which is asked for once the words
 * are there in the language that the page has named this worker after. What has words in it must be
 * imported inside `make`. A failure is reported as an error of the worker, where the page hears of it.
 */
export function answerInLanguage<Asked>(make: () => Promise<(asked: Asked) => void>): void {
  const answering = loadWords(languageOf(null, [self.name])).then(make);
  addEventListener('message', ({ data }: MessageEvent<Asked>) => {
    answering.then((answer) => answer(data)).catch(reportError);
  });
}
