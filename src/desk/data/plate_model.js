// A plate as it was entered. Spots are in millimetres above the start line, lines above the lower
// edge, lanes from the left edge.
import { csv } from '/systems.js';
import { number } from '/dom.js';

export const roles = [['sample', 'sample'], ['standard', 'standard'], ['co-spot', 'sample and standard together']];

export function emptyPlate() {
  return { system: '', width: 50, height: 100, start: 10, front: 80, lanes: [] };
}

/// Distance of the front from the start line, mm.
export const frontDistance = (plate) => plate.front - plate.start;

export function addLane(plate, at) {
  const lane = { at, label: '', role: 'sample', spots: [] };
  plate.lanes.push(lane);
  plate.lanes.sort((a, b) => a.at - b.at);
  return lane;
}

/// Where a lane stands if nobody says it: beside the last one.
export function nextPlace(plate) {
  const last = plate.lanes.at(-1);
  return Math.min(plate.width - 4, last ? last.at + 8 : 8);
}

export function addSpot(plate, lane, distance) {
  const spot = { mm: Math.round(Math.min(Math.max(distance, 0), frontDistance(plate)) * 10) / 10 };
  lane.spots.push(spot);
  lane.spots.sort((a, b) => a.mm - b.mm);
  return spot;
}

/// The distances that were typed, apart by blanks, semicolons or commas with a blank behind; faults
/// are told with what was found.
export function spotsOf(text, plate) {
  const words = text.trim().split(/(?:;|,\s|\s)\s*/).filter((word) => word !== '');
  const distances = words.map(number);
  const wrong = words.filter((word, i) => !(distances[i] >= 0 && distances[i] <= frontDistance(plate)));
  const spots = distances.filter((mm) => mm >= 0 && mm <= frontDistance(plate)).sort((a, b) => a - b).map((mm) => ({ mm }));
  return { spots, fault: wrong.length === 0 ? '' : `${wrong.join(', ')}: expected 0 to ${frontDistance(plate)} mm` };
}

export const laneName = (plate, lane) => lane.label || `lane ${plate.lanes.indexOf(lane) + 1}`;

/// Name of a spot in the program's answers: its place on the lane, from the start.
export const spotName = (lane, spot) => String(lane.spots.indexOf(spot) + 1);

/// The table that the program reads.
export function plateTable(plate) {
  const stain = plate.lanes.some((lane) => lane.spots.some((spot) => spot.stained));
  const lamp = plate.lanes.some((lane) => lane.spots.some((spot) => spot.uv254));
  const photo = plate.lanes.some((lane) => lane.spots.some((spot) => spot.uncertainty));
  const columns = ['lane', 'label', 'spot', 'distance_mm', 'front_mm', 'role',
    ...(lamp ? ['uv254'] : []), ...(stain ? ['stain', 'stained'] : []), ...(photo ? ['uncertainty'] : [])];
  const rows = [];
  plate.lanes.forEach((lane, i) => {
    for (const spot of lane.spots) {
      rows.push([i + 1, laneName(plate, lane), spotName(lane, spot), spot.mm.toFixed(1), frontDistance(plate).toFixed(1), lane.role,
        ...(lamp ? [spot.uv254 ?? ''] : []), ...(stain ? [spot.stained ? plate.stain ?? '' : '', spot.stained ?? ''] : []),
        ...(photo ? [spot.uncertainty ?? ''] : [])]);
    }
  });
  return csv(columns, rows);
}

export const hasSample = (plate) => plate.lanes.some((lane) => lane.role !== 'standard' && lane.spots.length > 0);
export const hasStandard = (plate) => plate.lanes.some((lane) => lane.role === 'standard' && lane.label && lane.spots.length > 0);
