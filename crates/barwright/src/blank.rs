//! The session that a new client begins with: nobody's body, a bike of middle size, today's visit.
//!
//! Every number is there to be typed over. Frame and saddle are those of a middle size (common
//! practice, no source).

use fit_doc::{
    Bike, Client, Cockpit, Date, Frame, LeverSetting, Levers, Saddle, Session, Stock, Visit,
    geometry,
};
use fit_view::words::{Caption, Words};
use std::sync::Arc;

const BAR: &str = "bar-compact-standard-420";
const STEM: &str = "stem-forged6-100";
const LEVER: &str = "lever-cable";

/// A session for a new client; none where the stock lacks the parts it begins with.
pub(crate) fn session(stock: &Stock, today: Date, words: &dyn Words) -> Option<Session> {
    let bar = stock.bar(BAR)?.clone();
    let place = fit_doc::Place::cockpit(words.caption(Caption::AsItCame));
    let bend = geometry::bend(&place, &bar).ok()?;
    let along_mm = (bend.along_from_s(bend.default_clamp().s_mm) * 10.0).round() / 10.0;
    let setting = LeverSetting { along_mm, turn_in_deg: 0.0, clicks: 0 };
    let cockpit = Cockpit {
        id: "as-it-came".to_owned(),
        label: words.caption(Caption::CameLabel).to_owned(),
        bar,
        stem: stock.stem(STEM)?.clone(),
        spacers_mm: 20.0,
        roll_deg: 0.0,
        levers: Some(Levers { lever: stock.lever(LEVER)?.clone(), left: setting, right: setting }),
        drops_hand_mm: 0.0,
        saddle: Saddle {
            height_mm: 720.0,
            nose_behind_mm: 55.0,
            sit_from_nose_mm: 140.0,
            tilt_deg: 0.0,
        },
        ridden: true,
    };
    let bike = Bike {
        id: "bike".to_owned(),
        name: words.caption(Caption::NewBike).to_owned(),
        frame: Frame::MIDDLE_SIZE,
        cockpit: cockpit.clone(),
        same_as: None,
    };
    let visit = Visit::new(today, bike.id.clone(), cockpit);
    Some(Session {
        id: uuid::Uuid::new_v4().to_string(),
        client: Client { name: String::new(), sex: None, born: None, notes: String::new() },
        bikes: vec![bike],
        visits: vec![Arc::new(visit)],
        keep_until: None,
    })
}

/// Today where this machine stands.
pub(crate) fn today() -> Date {
    jiff::ZonedDateTime::now().date()
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_doc::Message;
    use fit_view::weigh::{Survey, weigh};
    use fit_view::words::English;

    #[test]
    fn a_new_session_is_sound_can_be_weighed_and_has_an_identity_of_its_own() {
        let stock = fit_file::stock::shipped().unwrap();
        let day = Date::constant(2026, 3, 2);
        let new = || session(&stock, day, &English).unwrap();
        let one = new();
        let found = fit_doc::check(&one);
        // the name is what is still to be asked
        let asks_the_name = matches!(found.unusual[..], [Message::NoName { .. }]);
        assert!(found.refused.is_empty() && asks_the_name, "{found:?}");
        weigh(&one, None, &Survey::shipped().unwrap()).unwrap();
        assert_ne!(one.id, new().id);
    }
}
