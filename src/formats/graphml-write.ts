/**
 * A map as GraphML (Brandes et al. 2002, "GraphML Progress Report", LNCS 2265),
 * for other graph tools: nodes of three kinds, links of three kinds, with strength.
 */
import type { MapContent } from './map-file';

const escaped = (text: string) =>
  text
    // eslint-disable-next-line no-control-regex -- XML 1.0 has no way to write most controls
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** The whole map as one document; links to what it does not hold are left out. */
export function writeGraphml(map: Omit<MapContent, 'doubts'>): string {
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<graphml xmlns="http://graphml.graphdrawing.org/xmlns">',
    '<key id="name" for="node" attr.name="name" attr.type="string"/>',
    '<key id="kind" for="node" attr.name="kind" attr.type="string"/>',
    // A key of its own for edges: `for="all"` is allowed, but not every reader takes it.
    '<key id="link" for="edge" attr.name="kind" attr.type="string"/>',
    '<key id="strength" for="edge" attr.name="strength" attr.type="double"/>',
    '<graph id="map" edgedefault="directed">',
  ];
  const known = new Set<string>();
  const node = (kind: string, id: string, name: string) => {
    known.add(`${kind}:${id}`);
    lines.push(
      `<node id="${escaped(`${kind}:${id}`)}"><data key="name">${escaped(name)}</data><data key="kind">${kind}</data></node>`,
    );
  };
  for (const { id, name } of map.disciplines) node('discipline', id, name);
  for (const { id, name } of map.systems) node('system', id, name);
  for (const { id, name } of map.concepts) node('concept', id, name);
  const edge = (from: string, to: string, kind: string, strength?: number) => {
    if (!known.has(to)) return;
    const data = strength === undefined ? '' : `<data key="strength">${strength}</data>`;
    lines.push(
      `<edge source="${escaped(from)}" target="${escaped(to)}"><data key="link">${kind}</data>${data}</edge>`,
    );
  };
  for (const concept of map.concepts) {
    const from = `concept:${concept.id}`;
    for (const link of concept.restsOn)
      edge(from, `concept:${link.concept}`, 'rests on', link.strength);
    for (const id of concept.systems) edge(from, `system:${id}`, 'seen in');
    for (const id of concept.disciplines) edge(from, `discipline:${id}`, 'belongs to');
  }
  return [...lines, '</graph>', '</graphml>', ''].join('\n');
}
