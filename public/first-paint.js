// Chooses the dark or the day screen before anything is painted: a white flash would be a lamp on
// the beach. `firstdark-dark` is written by the app (src/app/state/dark-memory.ts): the switch and
// the dark hours of the nights to come. Nothing known: the system's own wish decides.
(function () {
  var dark = matchMedia('(prefers-color-scheme: dark)').matches;
  try {
    var told = JSON.parse(localStorage.getItem('firstdark-dark'));
    var now_ms = Date.now();
    if (told && told.switch === 'always') dark = true;
    else if (told && told.switch === 'never') dark = false;
    else if (told && told.spans.length > 0) {
      var last = told.spans[told.spans.length - 1];
      if (now_ms < last[1]) {
        dark = told.spans.some(function (span) {
          return now_ms >= span[0] && now_ms < span[1];
        });
      } else {
        // Not opened for weeks: the device's clock decides, and errs to the dark.
        var hour = new Date(now_ms).getHours();
        dark = hour >= 19 || hour < 7;
      }
    }
  } catch {
    // Storage is closed to us: the system's wish stands.
  }
  document.documentElement.className = dark ? 'dark' : 'day';
})();

// Asks for the words of the language while the app is on its way (vite.config.ts says where they
// are); which one is chosen as in src/words/languages.ts.
(function () {
  var words = document.currentScript.dataset;
  var chosen = null;
  try {
    chosen = JSON.parse(localStorage.getItem('firstdark settings')).language;
  } catch {
    // Nothing is kept, or it is closed to us: the system's wish stands.
  }
  var file = [chosen]
    .concat(navigator.languages, 'en')
    .map(function (tag) {
      return words[String(tag).toLowerCase().split('-')[0]];
    })
    .find(Boolean);
  if (file === undefined) return;
  var ahead = document.createElement('link');
  ahead.rel = 'modulepreload';
  ahead.href = file;
  document.head.appendChild(ahead);
})();
