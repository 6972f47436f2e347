// What Kestrel Ridge Pumps (invented) measured: 30 drilled holes, 20 tapped threads.
export const EXAMPLE = `kind,drill,thread,measured,tap_pitch_diameter,tap_id,material,machine,date,selection
drilled_hole,I,,0.2727 in; 0.2735 in; 0.2740 in; 0.2735 in; 0.2737 in; 0.2728 in; 0.2735 in; 0.2734 in; 0.2741 in; 0.2737 in,,,4140,VMC 2,2026-11-19,all
drilled_hole,U,,0.3696 in; 0.3692 in; 0.3692 in; 0.3696 in; 0.3703 in; 0.3686 in; 0.3681 in; 0.3706 in; 0.3704 in; 0.3699 in,,,4140,VMC 2,2026-11-19,all
drilled_hole,29/64,,0.4549 in; 0.4545 in; 0.4545 in; 0.4541 in; 0.4550 in; 0.4546 in; 0.4537 in; 0.4544 in; 0.4544 in; 0.4544 in,,,4140,VMC 2,2026-11-19,all
tapped_thread,,3/8-16 UNC-2B,0.3369 in; 0.3366 in; 0.3353 in; 0.3365 in; 0.3366 in,0.3356 in,T1,4140,VMC 2,2026-11-20,all
tapped_thread,,3/8-16 UNC-2B,0.3369 in; 0.3368 in; 0.3359 in; 0.3368 in; 0.3365 in,0.3358 in,T2,4140,VMC 2,2026-11-20,all
tapped_thread,,3/8-16 UNC-2B,0.3369 in; 0.3366 in; 0.3359 in; 0.3370 in; 0.3360 in,0.3357 in,T3,4140,VMC 2,2026-11-20,all
tapped_thread,,3/8-16 UNC-2B,0.3366 in; 0.3363 in; 0.3360 in; 0.3355 in; 0.3359 in,0.3355 in,T4,4140,VMC 2,2026-11-20,all
`;
