import { DWC, type DwcTable } from './dwc-table.ts';
import { xmlText } from './xml-text.ts';

/**
 * `meta.xml`: which file holds what, by the Darwin Core text guide (schema
 * http://rs.tdwg.org/dwc/text/tdwg_dwc_text.xsd).
 */
export function metaXml(core: DwcTable, extensions: readonly DwcTable[]): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">',
    fileXml('core', 'id', core),
    ...extensions.map((table) => fileXml('extension', 'coreid', table)),
    '</archive>',
    '',
  ].join('\n');
}

function fileXml(
  element: 'core' | 'extension',
  idElement: 'id' | 'coreid',
  table: DwcTable,
): string {
  const attributes = [
    'encoding="UTF-8"',
    'fieldsTerminatedBy=","',
    'linesTerminatedBy="\\n"',
    'fieldsEnclosedBy="&quot;"',
    'ignoreHeaderLines="1"',
    `rowType="${xmlText(table.rowType)}"`,
  ];
  // The first column is the event's id: a term of the core, in an extension only the link to it.
  const own = element === 'core' ? [fieldXml(0, 'eventID')] : [];
  return [
    `  <${element} ${attributes.join(' ')}>`,
    `    <files><location>${xmlText(table.file)}</location></files>`,
    `    <${idElement} index="0"/>`,
    ...own,
    ...table.terms.map((term, index) => fieldXml(index + 1, term)),
    `  </${element}>`,
  ].join('\n');
}

function fieldXml(index: number, term: string): string {
  return `    <field index="${index}" term="${DWC}${term}"/>`;
}
