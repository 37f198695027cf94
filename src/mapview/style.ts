/** How cytoscape draws bars, links and rays. */
import type cytoscape from 'cytoscape';
import { mixed, type Colours } from './colours';

/** Names are drawn once they are this tall on the screen, in CSS pixels. */
export const leastNameSize = 7;
/** Height of a name on the drawing plane: the body of a bar is 10 units high. */
export const nameSize = 7.5;
/** From this zoom on a bar has room for a missing piece under its name. */
export const nearZoom = 1.9;

export function styleOf(colours: Colours): cytoscape.StylesheetJson {
  return [
    {
      selector: 'node',
      style: {
        shape: 'polygon',
        'shape-polygon-points': 'data(outline)' as unknown as string,
        width: 'data(width)',
        height: 'data(height)',
        'background-color': colours.raised,
        'border-width': 0.7,
        'border-color': colours.ruleStrong,
        'overlay-opacity': 0,
      },
    },
    {
      selector: 'node[fill > 0]',
      style: {
        'background-fill': 'linear-gradient',
        'background-gradient-direction': 'to-right',
        'background-gradient-stop-colors': 'data(fillColours)' as unknown as string[],
        'background-gradient-stop-positions': 'data(fillStops)' as unknown as string[],
        'border-color': colours.miss3,
      } as cytoscape.Css.Node,
    },
    {
      selector: 'node[edge = "broken"]',
      style: { 'border-width': 1.6, 'border-style': 'dashed', 'border-color': colours.miss4 },
    },
    {
      selector: 'node[edge = "heavy"]',
      style: { 'border-width': 2.4, 'border-style': 'solid', 'border-color': colours.miss4 },
    },
    { selector: 'node.faded', style: { opacity: 0.22 } },
    {
      selector: 'node.lit',
      style: { 'background-color': mixed(colours.raised, colours.sound, 0.45) },
    },
    {
      selector: 'node.chosen',
      style: {
        'border-width': 4,
        'border-color': colours.focus,
        'border-style': 'solid',
        'z-index': 9,
      },
    },
    {
      selector: 'edge',
      style: {
        'curve-style': 'straight',
        width: 'data(width)',
        'line-color': colours.sound,
        'source-endpoint': 'data(sourceEnd)',
        'target-endpoint': 'data(targetEnd)',
        'overlay-opacity': 0,
        events: 'no',
        opacity: 0.8,
      } as cytoscape.Css.Edge,
    },
    { selector: 'edge.ray', style: { 'line-color': colours.miss3, opacity: 0.7 } },
  ];
}

/** What is written on and beside the bars at a zoom. */
export function namesAt(zoom: number): 'beside' | 'on' | 'on, with missing pieces' {
  if (zoom * nameSize < leastNameSize) return 'beside';
  return zoom < nearZoom ? 'on' : 'on, with missing pieces';
}
