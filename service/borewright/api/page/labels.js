// Names of a reply in the words of the shop; what is not here reads well with its underscores as spaces.

const LABELS = {
  minor_diameter: "Minor diameter", pitch_diameter: "Pitch diameter", major_diameter: "Major diameter",
  go: "GO", not_go: "NOT GO", thread_plug: "Thread plug gauge", plain_plug: "Plain plug gauge", before_finish: "Before the finish",
  hb: "Brinell hardness (HB)", hrc: "Rockwell hardness (HRC)", both: "Hole and thread together", system: "Gauge system",
  cutting_speed: "Cutting speed", cutting_speed_range: "Usual range of speed", spindle_speed: "Spindle speed", clutch_torque: "Set the tap clutch to",
  breaking_torque: "Torque that breaks the tap", break_margin: "Breaking torque over needed torque", torque: "Torque needed", power: "Power needed",
  peck: "Pecks", depth_over_diameter: "Depth in drill diameters", first: "First peck to", next: "Then each by", count: "Number of pecks",
  left_for_holder: "Shank left for the holder", wear_limit: "Wear limit", acceptance: "Chance of a good hole", thrust: "Thrust", time: "Time",
  access_depth: "Bore above the hole, depth", clearance_diameter: "Diameter free above the hole", drill_reach: "Drill must reach", tap_reach: "Tap must reach",
  length: "Length of tool", shank: "Shank", kind: "Kind of tool", document: "Standard of the tool", overall_length: "Overall length",
  cutting_length: "Length of flutes or thread", shank_diameter: "Shank diameter", model: "How it was worked out", fluid: "Cutting fluid",
  drill: "Drill", tap: "Tap", depth: "Depth", speed: "Speed", gauge: "Gauge",
};

export function label(name) {
  if (name in LABELS) return LABELS[name];
  const said = name.replaceAll("_", " ");
  return said.charAt(0).toUpperCase() + said.slice(1);
}

const VERDICTS = {
  ready: "Ready for the shop",
  review: "Not yet for the shop",
  infeasible: "Cannot be made as it stands",
};

export function verdict(name) {
  return VERDICTS[name] ?? name;
}
