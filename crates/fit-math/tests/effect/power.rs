//! Air and power against published numbers.

use crate::people::Random;
use fit_math::effect::air::{Air, standard_celsius, standard_pressure_pa};
use fit_math::effect::power::{CHAIN_PASSES_ON, DRAG_COEFFICIENTS, ROLLING, Ride, SpeedChange};
use serde_json::Value;

fn checks() -> Value {
    serde_json::from_str(include_str!("../data/power_and_air.json")).unwrap()
}

fn number(of: &Value, name: &str) -> f64 {
    of[name].as_f64().unwrap()
}

/// CIPM-2007 and the standard atmosphere.
#[test]
fn air_is_as_dense_as_published() {
    let checks = checks();
    for one in checks["cipm2007"].as_array().unwrap() {
        let air = Air::new(number(one, "t_C"), number(one, "p_Pa"), number(one, "rh")).unwrap();
        let (found, exact) = (air.density_kg_m3(), number(one, "rho"));
        println!("{air:?}: {found:.6} kg/m³, published formula {exact:.6}");
        assert!((found - exact).abs() < 1e-8);
    }
    let known = Air::new(20.0, 101_325.0, 0.5).unwrap().density_kg_m3();
    assert!((known - 1.199_314).abs() < 1e-5, "{known}");
    for one in checks["isa"].as_array().unwrap() {
        let height_m = number(one, "h_m");
        assert!((standard_celsius(height_m) + 273.15 - number(one, "T")).abs() < 1e-9);
        let pressure = standard_pressure_pa(height_m);
        assert!((pressure / number(one, "p") - 1.0).abs() < 1e-6, "{pressure}");
        // the standard's own density is that of an ideal gas, which air is to half a thousandth
        let dry = Air::at_height(standard_celsius(height_m), height_m, 0.0).unwrap();
        assert!((dry.density_kg_m3() / number(one, "rho") - 1.0).abs() < 6e-4);
    }
    for (t, p, humidity) in
        [(f64::NAN, 1e5, 0.5), (20.0, 1013.0, 0.5), (20.0, 1e5, 50.0), (293.0, 1e5, 0.5)]
    {
        assert!(Air::new(t, p, humidity).is_err());
    }
    assert!(Air::at_height(20.0, 20_000.0, 0.5).is_err());
}

/// The worked example of Martin et al. 1998.
#[test]
fn the_published_ride_costs_what_it_did() {
    let checks = checks();
    let (inputs, published) = (&checks["martin1998"]["inputs"], &checks["martin1998"]["published"]);
    let of = |name| number(inputs, name);
    let degrees = of("wind_dir") - of("travel_dir");
    let ride = Ride {
        mass_kg: of("mass_kg"),
        drag_area_m2: of("CdA"),
        rolling: ROLLING,
        grade: of("grade"),
        headwind_m_s: of("wind") * degrees.to_radians().cos(),
        density_kg_m3: of("rho"),
        passed_on: CHAIN_PASSES_ON,
    };
    let change = SpeedChange { from_m_s: of("vi"), to_m_s: of("vf"), within_s: of("dt") };
    let found = ride.checked().unwrap().balance(of("vG"), Some(change));
    println!("{found:?}");
    for (found, name) in [
        (found.air_w, "P_aero"),
        (found.rolling_w, "P_roll"),
        (found.bearings_w, "P_bearing"),
        (found.climbing_w, "P_potential"),
        (found.speeding_w, "P_kinetic"),
        (found.total_w, "P_total"),
    ] {
        assert!((found - number(published, name)).abs() < 0.2, "{name}: {found}");
    }
}

fn drawn(random: &mut Random) -> Ride {
    let ride = Ride {
        mass_kg: random.between(50.0, 130.0),
        drag_area_m2: random.between(0.2, 0.6),
        rolling: random.between(0.002, 0.008),
        grade: random.between(-0.06, 0.1),
        headwind_m_s: random.between(-6.0, 6.0),
        density_kg_m3: random.between(0.95, 1.3),
        passed_on: random.between(0.93, 0.99),
    };
    ride.checked().unwrap()
}

/// The speed at a power costs that power, and is the fastest that does; more power is faster.
#[test]
fn speed_and_power_are_each_others_inverse() {
    let mut random = Random(31);
    for _ in 0..2000 {
        let ride = drawn(&mut random);
        let power_w = random.between(0.0, 600.0);
        let speed = ride.speed_m_s(power_w);
        let costs = |speed| ride.balance(speed, None).total_w;
        assert!((costs(speed) - power_w).abs() < 1e-6, "{ride:?} {power_w}: {speed}");
        assert!((1..50).all(|more| costs(speed + 0.5 * f64::from(more)) > power_w));
        assert!(ride.speed_m_s(power_w + 10.0) > speed);
    }
    let level = Ride { grade: 0.0, headwind_m_s: 1.0, ..drawn(&mut random) };
    assert!(level.speed_m_s(0.0) < 1e-9, "nobody rolls on the level");
    let downhill = Ride { grade: -0.05, ..level };
    assert!(downhill.speed_m_s(0.0) > 5.0);
}

/// To first order a thousandth of the drag at a speed costs a thousandth of the air's power, and
/// the time follows from how power grows with speed.
#[test]
fn an_area_is_worth_what_the_balance_says() {
    let mut random = Random(32);
    for _ in 0..500 {
        let ride = Ride { grade: 0.0, headwind_m_s: 0.0, ..drawn(&mut random) };
        let speed = random.between(6.0, 13.0);
        let worth = ride.worth(speed, 1e-4);
        let pressure = 0.5 * ride.density_kg_m3 * speed.powi(3) / ride.passed_on;
        for (found, coefficient) in worth.watts.into_iter().zip(DRAG_COEFFICIENTS) {
            assert!((found - coefficient * 1e-4 * pressure).abs() < 1e-9 * pressure);
        }
        let costs = |speed| ride.balance(speed, None).total_w;
        let per_speed = (costs(speed + 1e-4) - costs(speed - 1e-4)) / 2e-4;
        for (watts, seconds) in worth.watts.into_iter().zip(worth.seconds_per_hour) {
            let first_order = 3600.0 * watts / per_speed / speed;
            assert!((seconds / first_order - 1.0).abs() < 2e-3, "{seconds} {first_order}");
        }
        let less = ride.worth(speed, -0.01);
        assert!(less.watts[0] < less.watts[1] && less.watts[1] < 0.0);
        assert!(less.seconds_per_hour[0] < less.seconds_per_hour[1]);
        let none = ride.worth(speed, 0.0);
        assert!(none.watts == [0.0; 2] && none.seconds_per_hour.iter().all(|s| s.abs() < 1e-6));
    }
    let usual = Ride {
        mass_kg: 83.0,
        drag_area_m2: 0.35,
        rolling: ROLLING,
        grade: 0.0,
        headwind_m_s: 0.0,
        density_kg_m3: 1.2,
        passed_on: CHAIN_PASSES_ON,
    };
    println!("0.011 m² more at 30 km/h: {:.1?}", usual.worth(30.0 / 3.6, 0.011));
}

#[test]
fn what_cannot_be_ridden_is_refused() {
    let good = drawn(&mut Random(33));
    for wrong in [
        Ride { mass_kg: 0.0, ..good },
        Ride { grade: f64::NAN, ..good },
        Ride { passed_on: 1.1, ..good },
        Ride { drag_area_m2: -0.1, ..good },
        Ride { density_kg_m3: f64::INFINITY, ..good },
    ] {
        assert!(wrong.checked().is_err());
    }
}
