// Holes of a pump housing of Kestrel Ridge Pumps, an invented maker.
export const EXAMPLE = {
  part: "KRP-1077",
  material: "grey iron class 30",
  lot_size: "40",
  holes: `id,thread,hole.type,hole.full_thread_depth,hole.thickness,count,hole.counterbore.diameter,hole.counterbore.depth
cover,1/2-13 UNC-2B,blind,0.75,,8,0.81,0.06
bearing cap,3/8-16 UNC-2B,blind,0.62,,4
seal plate,3/8-16 UNC-3B,blind,0.5,,4
foot,5/8-11 UNC-2B,through,,0.875,2,1.25,
eye,3/4-10 UNC-2B,blind,1.25,,1
name plate,#6-32 UNC-2B,blind,0.25,,2
gauge port,1/4-18 NPT,through,,0.75,1
sensor,1/2-13 UNC-3B,blind,0.62,,1
`,
};
