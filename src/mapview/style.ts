/** How cytoscape draws bars, links and rays. */
import type cytoscape from 'cytoscape';
import { mixed, type Colours } from './colours';

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
    { selector: 'node[thin = 1]', style: { 'border-width': 0 } },
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
      selector: 'node[edge = "broken"][thin = 0]',
      style: { 'border-width': 1.2, 'border-style': 'dashed', 'border-color': colours.miss4 },
    },
    {
      selector: 'node[edge = "heavy"][thin = 0]',
      style: { 'border-width': 2, 'border-style': 'solid', 'border-color': colours.miss4 },
    },
    { selector: 'node.faded', style: { opacity: 0.22 } },
    {
      selector: 'node.lit',
      style: { 'background-color': mixed(colours.raised, colours.sound, 0.45) },
    },
    {
      selector: 'node.chosen',
      style: {
        'border-width': 2.5,
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
