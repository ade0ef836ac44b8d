import type { TableName } from '../../domain/event.ts';
import { headingWords } from './plain-words.ts';

/**
 * What people write over the columns of each table, in English and Spanish (common use, from
 * memory): several ways separated by commas, in the singular, without accents. The names of our
 * own columns are understood besides.
 */
const ways: Readonly<Record<TableName, Readonly<Record<string, string>>>> = {
  nests: {
    nest: 'nest, nest id, nest number, nest no, nest name, nido, numero de nido, no nido, id nido, codigo, codigo nido, id, marker',
    species: 'species, especie, turtle, tortuga',
    lay_night:
      'lay date, laid, date laid, laying date, date, fecha, fecha puesta, fecha de puesta, fecha anidacion, fecha de anidacion, fecha desove, fecha de desove, puesta, desove, nesting date, first lay date',
    lay_night_latest:
      'latest lay date, laid latest, latest, fecha puesta maxima, fecha maxima, ultima fecha posible',
    zone: 'zone, zona, sector, beach, playa, area, section',
    latitude: 'latitude, lat, latitud, y',
    longitude: 'longitude, lon, long, lng, longitud, x',
    shore_m:
      'shore, distance along shore, distance along beach, along shore, distancia, distancia playa, beach position, distance',
    clutch:
      'clutch, clutch size, egg, egg count, number of egg, huevo, numero de huevo, no huevo, nidada, total huevo',
    relocated: 'relocated, moved, reubicado, trasladado, reubicacion, traslado, relocation',
    screened: 'screened, screen, malla, protegido, cage, jaula, protection, caged, con malla',
    light_exposure:
      'light, light exposure, exposure, luz, exposicion luz, exposicion a la luz, iluminacion',
  },
  visits: {
    nest: 'nest, nest id, nest number, nest no, nido, numero de nido, no nido, id nido, codigo nido, marker',
    time: 'time, date, date and time, date time, datetime, fecha, hora, fecha y hora, fecha hora, dia, day, visit date, visit time, fecha visita, fecha de visita, hora visita, hora de visita, timestamp, marca temporal, noche, night, date of visit, fecha de la visita',
    kind: 'kind, visit type, type, round, tipo, tipo de visita, ronda, turno',
    observer:
      'observer, who, name, observador, observadora, quien, responsable, nombre, volunteer, voluntario, voluntaria, sitter',
    experience: 'experience, level, experiencia, nivel',
    surface:
      'surface, sand, sand surface, superficie, arena, estado arena, estado de la arena, superficie de la arena',
    sound: 'sound, noise, heard, sonido, ruido, escucha, activity heard, scratching',
    wind: 'wind, viento',
    rain: 'rain, lluvia',
    tracks:
      'track, hatchling track, track counted, rastro, huella, numero de rastro, numero de huella, huella contada',
    event: 'event, loss, mishap, evento, suceso, incidente, perdida',
    watched_from:
      'watched from, from, start, sit start, start time, desde, inicio, hora inicio, hora de inicio, begin',
    watched_to: 'watched to, to, until, end, sit end, end time, hasta, fin, hora fin, hora de fin',
    emerged:
      'emerged, hatchling, hatchling seen, hatchling emerged, cria, tortuguita, cria emergida, neonato, emergido, emergida',
    note: 'note, comment, remark, nota, comentario, observacion, observacione, comentarios',
    instrument: 'instrument, tool, instrumento',
    scratch_per_min: 'scratch per minute, scratch per min',
    level_db: 'level, sound level, db',
    first_out: 'first out, first hatchling, primera salida, primera cria',
    last_out: 'last out, last hatchling, ultima salida, ultima cria',
    reached_water: 'reached water, reached sea, llegaron al mar, al mar',
    astray: 'astray, disoriented, desorientada, desorientado',
    taken: 'taken, eaten, comida, depredada en camino',
  },
  conditions: {
    date: 'date, day, fecha, dia',
    zone: 'zone, zona, sector, beach, playa',
    sand_c:
      'sand, sand temp, sand temperature, temp sand, arena, temperatura arena, temp arena, temperatura de la arena, nest temperature, temperatura del nido',
    air_c:
      'air, air temp, air temperature, aire, temperatura aire, temp aire, temperatura del aire, temperatura ambiente, temp ambiente',
    rain_mm: 'rain, rainfall, precipitation, lluvia, precipitacion',
  },
  volunteers: {
    volunteer:
      'volunteer, name, person, voluntario, voluntaria, nombre, full name, nombre completo, sitter',
    experience: 'experience, level, experiencia, nivel',
    zones: 'zone, zona, sector, beach, playa',
    max_shifts_week:
      'max shift week, max shift per week, shift per week, max shift, turno por semana, max turno, maximo turno semana, turno semana',
    team: 'team, equipo, group, grupo',
    role: 'role, rol, funcion, cargo',
  },
  availability: {
    volunteer: 'volunteer, name, person, voluntario, voluntaria, nombre, sitter',
    night: 'night, date, day, noche, fecha, dia',
    from: 'from, start, desde, inicio, hora inicio',
    to: 'to, until, end, hasta, fin, hora fin',
    available: 'available, can, free, disponible, puede, libre',
  },
  orientation: {
    nest: 'nest, nest id, nido, numero de nido, no nido',
    night: 'night, date, noche, fecha, emergence date, fecha de emergencia',
    zone: 'zone, zona, sector, beach, playa',
    seaward_deg:
      'seaward, seaward bearing, sea bearing, direction to sea, rumbo al mar, direccion al mar, mar',
    tracks_counted:
      'track counted, track, number of track, rastro contado, huella contada, rastro, huella',
    disoriented: 'disoriented, misoriented, desorientado, desorientada',
    track_bearings: 'track bearing, bearing, rumbo de rastro, rumbo',
    leftmost_deg: 'leftmost, left, izquierda, extremo izquierdo',
    rightmost_deg: 'rightmost, right, derecha, extremo derecho',
    modal_deg: 'modal, main direction, mode, direccion principal',
    light_source: 'light source, light, lamp, fuente de luz, luz',
    moon: 'moon, luna',
    cloud: 'cloud, nube, nubosidad',
    outcome: 'outcome, result, resultado',
    note: 'note, comment, nota, comentario, observacion, observacione',
  },
  inventory: {
    nest: 'nest, nest id, nest number, nido, numero de nido, no nido, id nido',
    date: 'date, inventory date, date of inventory, excavation date, fecha, fecha de inventario, fecha inventario, fecha de exhumacion, fecha exhumacion',
    shells:
      'shell, empty shell, hatched, egg shell, cascara, cascaron, cascarone, eclosionado, cascara vacia',
    unhatched: 'unhatched, unhatched egg, no eclosionado, huevo no eclosionado, sin eclosionar',
    pipped_live: 'pipped live, live pipped, pipped alive, picado vivo, pip vivo',
    pipped_dead: 'pipped dead, dead pipped, picado muerto, pip muerto',
    live_in_nest:
      'live in nest, live, alive, live hatchling, cria viva, vivo, viva, vivo en nido, viva en nido',
    dead_in_nest:
      'dead in nest, dead, dead hatchling, cria muerta, muerto, muerta, muerto en nido, muerta en nido',
    depredated: 'depredated, predated, eaten, depredado, huevo depredado',
    note: 'note, comment, nota, comentario, observacion, observacione',
    clutch: 'clutch, clutch size, egg laid, huevo puesto, nidada, total huevo',
  },
};

const tables = Object.keys(ways) as TableName[];

/** For each table and each column of ours, the ways of naming it, each as words. */
const phrases = new Map<string, readonly (readonly string[])[]>(
  tables.flatMap((table) =>
    Object.entries(ways[table]).map(
      ([column, list]) =>
        [`${table} ${column}`, list.split(', ').map((way) => headingWords(way))] as const,
    ),
  ),
);

/** Small words that say nothing of what a column holds. */
const filler = new Set(['de', 'la', 'el', 'del', 'of', 'the', 'a', 'al', 'en', 'in', 'no', 'num']);

/** How much of a heading speaks for one of our columns, 0 (nothing) to 1 (it is its name). */
export function headingFits(heading: string, table: TableName, column: string): number {
  const words = headingWords(heading);
  if (words.join(' ') === headingWords(column).join(' ')) return 1;
  const said = new Set(words);
  const weight = (list: Iterable<string>): number =>
    [...list].reduce((sum, word) => sum + (filler.has(word) ? 0.1 : 1), 0);
  const whole = weight(said);
  let best = 0;
  for (const way of phrases.get(`${table} ${column}`) ?? []) {
    if (way.length === words.length && way.every((word, index) => word === words[index])) {
      return 0.95;
    }
    if (way.every((word) => said.has(word))) {
      best = Math.max(best, 0.4 + (0.5 * weight(way)) / Math.max(whole, 0.1));
    }
  }
  return best;
}

const everyPhrase = new Set([
  ...[...phrases.values()].flat().map((way) => way.join(' ')),
  ...tables
    .flatMap((table) => Object.keys(ways[table]))
    .map((name) => headingWords(name).join(' ')),
]);

/** Whether a cell reads like a heading of any table. */
export function isHeading(text: string): boolean {
  return text.length < 60 && everyPhrase.has(headingWords(text).join(' '));
}

const tableNames: Readonly<Record<TableName, readonly string[]>> = {
  nests: ['nest', 'nido', 'anidacion'],
  visits: ['visit', 'visita', 'round', 'ronda', 'note', 'monitoreo', 'vigilancia'],
  conditions: [
    'condition',
    'condicione',
    'condicion',
    'weather',
    'clima',
    'temperature',
    'temperatura',
    'lluvia',
  ],
  volunteers: ['volunteer', 'voluntario', 'people', 'persona', 'crew', 'equipo'],
  availability: ['availability', 'disponibilidad', 'available', 'turno'],
  orientation: ['orientation', 'orientacion', 'disorientation', 'desorientacion', 'rastro'],
  inventory: ['inventory', 'inventario', 'excavation', 'exhumacion', 'exhumacione'],
};

/** Whether the name of a file or sheet names a table. */
export function isNameOf(name: string, table: TableName): boolean {
  const said = headingWords(name.replace(/\.[a-z]{2,4}$/i, ''));
  return tableNames[table].some((word) => said.includes(word));
}
