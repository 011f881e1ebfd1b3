//! The sessions that come with the program are sound, and are the ones that are put together here.

use acceptance::demo;
use fit_doc::{Session, geometry};
use fit_math::body::{Body, Segments, Survey};
use fit_math::posture::{Grips, HandPlace, Rider, solve};
use fit_math::saddle::{LegTurn, Saddle, Seat};
use fit_math::frame::Side;

#[test]
fn explore() {
    for (name, s) in demo::sessions().unwrap() {
        let found = fit_doc::check(&s);
        println!("{name} {found:?}");
        let v = s.latest_visit().unwrap();
        let r: Vec<_> = v.body.iter().flat_map(|r| r.values.iter().map(|&x| (r.dimension, x))).collect();
        let body = Body::new(&Survey::shipped().unwrap(), s.client.sex, &r).unwrap();
        let seg = Segments::of(&body).unwrap();
        println!("{:?}", seg.lengths());
        let rider = Rider::new(seg, s.client.sex);
        for b in &s.bikes { one(&s, b, &b.cockpit, &rider); }
        for c in v.cockpits() { one(&s, s.bike(&v.bike).unwrap(), c, &rider); }
    }
}
fn one(_: &Session, b: &fit_doc::Bike, c: &fit_doc::Cockpit, rider: &Rider) {
    let built = geometry::cockpit(&b.frame, c).unwrap();
    let sd = Saddle::new(c.saddle.height_mm, c.saddle.nose_behind_mm, c.saddle.sit_from_nose_mm, c.saddle.tilt_deg.to_radians()).unwrap();
    let seat = Seat::on(&sd, b.frame.crank_mm).unwrap();
    let l = c.levers.as_ref().unwrap();
    let bend = built.bend();
    println!("{} on {}: clamp {:.0} along {} / {} zone {:?} default {:.1} flare {:.1} hoodtrans {:.1}", c.label, b.name, built.clamp(), l.left.along_mm, l.right.along_mm, {let z=bend.clamp_zone(); (bend.along_from_s(z.0).round(), bend.along_from_s(z.1).round())}, bend.along_from_s(bend.default_clamp().s_mm), bend.flare_rad().to_degrees(), built.hood_transition_rad().unwrap().to_degrees());
    for p in [HandPlace::Tops, HandPlace::Ramps, HandPlace::Hoods, HandPlace::Drops, HandPlace::Ends] {
        let g = built.grips(p).unwrap();
        let grips = Grips::new(g.right.centre, g.left.centre).unwrap();
        let post = solve(rider, &seat, &grips, p, None);
        let rep = post.report(rider, &seat, &grips, p);
        let knee = match rep.leg { LegTurn::Turns { knee_min_rad } => knee_min_rad.to_degrees(), _ => -1.0 };
        println!("   {p:?} dx {:.0} dy {:.0} z {:.0} {:?} trunk {:.1} elbow {:.1} pelvis {:.1} spine {:.1} neck {:.1} hipflex {:.1} hipmin {:.1} knee {:.1}", g.right.centre.x-seat.sit().x, g.right.centre.y-seat.sit().y, g.right.centre.z, post.outcome, rep.trunk_rad.to_degrees(), rep.arm(Side::Right).elbow_rad.to_degrees(), rep.pelvis_rad.to_degrees(), rep.spine_rad.to_degrees(), rep.neck_need_rad.to_degrees(), rep.hip_flexion_rad.to_degrees(), rep.hip_min_rad.to_degrees(), knee);
    }
}
