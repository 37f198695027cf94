/** The types of the picture, for screens that fetch the drawing itself later. */
export type { Highlight, SectionView, View } from './section-view';
export type { Geometry, Lens } from './geometry';
export type { Picture } from './picture';
export type { DrawnLink } from './elements';
