// What can be told of the packages without asking anybody: from the lock, package.json and the
// packages' own package.json. Gives what is wrong in words, one line each.

const REGISTRY = 'https://registry.npmjs.org/';

/** Licences that let a program be given away under its own. */
const LICENCES = new Set([
  '0BSD',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'CC0-1.0',
  'ISC',
  'MIT',
  'Unlicense',
]);

/** Packages that run a program of theirs while being installed, and why they may. */
const MAY_RUN = new Map([['esbuild', 'it checks that its program runs on this machine']]);

/** Tools of which a part is compiled into the app or its service worker. */
const COMPILED_IN = [
  'svelte',
  'workbox-core',
  'workbox-precaching',
  'workbox-routing',
  'workbox-strategies',
  'workbox-window',
  'wuchale',
  '@wuchale/svelte',
];

/**
 * Faults of a lock (version 3) and of the package.json it belongs to. `manifestOf` gives the
 * package.json of an installed package by its path in the lock, null when it is not installed.
 */
export function judgePackages(lock, manifest, manifestOf) {
  return [
    ...judgePins(manifest),
    ...judgeAgreement(lock, manifest),
    ...Object.entries(lock.packages).flatMap(([path, entry]) =>
      path === '' ? [] : judgeEntry(path, entry),
    ),
    ...judgeLicences(lock, manifest, manifestOf),
  ];
}

function judgePins(manifest) {
  return asked(manifest)
    .filter(([, version]) => !/^\d+\.\d+\.\d+(-[0-9A-Za-z.-]+)?$/.test(version))
    .map(
      ([name, version]) =>
        `package.json: ${name} is "${version}"; expected one version, such as "1.2.3". Pin it.`,
    );
}

function judgeAgreement(lock, manifest) {
  return asked(manifest)
    .filter(([name, version]) => lock.packages[`node_modules/${name}`]?.version !== version)
    .map(
      ([name, version]) =>
        `package-lock.json: ${name} is ${lock.packages[`node_modules/${name}`]?.version ?? 'missing'}; package.json asks for ${version}. Run npm install.`,
    );
}

function judgeEntry(path, { resolved, integrity, hasInstallScript, link, inBundle }) {
  const faults = [];
  const name = nameOf(path);
  if (link === true)
    faults.push(`${path}: is a link to a folder; expected a package of the registry.`);
  if (resolved !== undefined && !resolved.startsWith(REGISTRY)) {
    faults.push(`${path}: comes from ${resolved}; expected ${REGISTRY}.`);
  }
  if (inBundle !== true && !/^sha512-[A-Za-z0-9+/]{86}==$/.test(integrity ?? '')) {
    faults.push(`${path}: has no SHA-512 of its content, so anything could be put in its place.`);
  }
  if (hasInstallScript === true && !MAY_RUN.has(name)) {
    faults.push(
      `${path}: runs a program while being installed. Read it, then name it in MAY_RUN with the reason, or do without.`,
    );
  }
  return faults;
}

function judgeLicences(lock, manifest, manifestOf) {
  return [...shipped(lock, manifest)].sort().flatMap((path) => {
    const own = manifestOf(path);
    const licence = own === null ? lock.packages[path].license : licenceIn(own);
    // One that is for another kind of machine is not shipped from this one.
    if (own === null && lock.packages[path].optional === true) return [];
    return isAllowed(licence)
      ? []
      : [
          `${path}: is shipped, and its licence is ${licence ?? 'not said'}; expected one of ${[...LICENCES].join(', ')}.`,
        ];
  });
}

/** Paths in the lock of all that reaches a browser or a hub, and of what these need. */
export function shipped(lock, manifest) {
  const found = new Set();
  const roots = [...Object.keys(manifest.dependencies ?? {}), ...COMPILED_IN];
  const waiting = roots.flatMap((name) => lookUp(lock, '', name) ?? []);
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (found.has(path)) continue;
    found.add(path);
    const { dependencies, optionalDependencies } = lock.packages[path];
    for (const name of Object.keys({ ...dependencies, ...optionalDependencies })) {
      const next = lookUp(lock, path, name);
      if (next !== null) waiting.push(next);
    }
  }
  return found;
}

/** Where Node would find a package when the one at `path` asks for it; null when nowhere. */
function lookUp(lock, path, name) {
  for (
    let folder = path;
    ;
    folder = folder.slice(0, Math.max(0, folder.lastIndexOf('node_modules') - 1))
  ) {
    const at = folder === '' ? `node_modules/${name}` : `${folder}/node_modules/${name}`;
    if (lock.packages[at] !== undefined) return at;
    if (folder === '') return null;
  }
}

function licenceIn({ license, licenses }) {
  if (typeof license === 'string') return license;
  if (typeof license?.type === 'string') return license.type;
  return Array.isArray(licenses) ? licenses.map(({ type }) => type).join(' OR ') : null;
}

/** Of several to choose from one is enough; of several that hold together (AND) all must be allowed. */
function isAllowed(licence) {
  if (typeof licence !== 'string') return false;
  return licence
    .replace(/[()]/g, '')
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((one) => LICENCES.has(one.trim())));
}

const asked = ({ dependencies, devDependencies }) =>
  Object.entries({ ...dependencies, ...devDependencies });
const nameOf = (path) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
