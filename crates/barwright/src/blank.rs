//! The session that a new client begins with: nobody's body, a bike of middle size, today's visit.
//!
//! Every number is there to be typed over. Frame and saddle are those of a middle size (common
//! practice, no source).

use fit_doc::tape::{BEGINS_WITH_BAR, BEGINS_WITH_LEVER, BEGINS_WITH_SPACERS_MM, BEGINS_WITH_STEM};
use fit_doc::{
    Bike, Client, Cockpit, Date, Frame, LeverSetting, Levers, Saddle, Session, Stock, Visit,
    geometry,
};
use fit_view::words::{Caption, Words};
use std::sync::Arc;

/// A session for a new client; none where the stock lacks the parts it begins with.
pub(crate) fn session(stock: &Stock, today: Date, words: &dyn Words) -> Option<Session> {
    let bar = stock.bar(BEGINS_WITH_BAR)?.clone();
    let place = fit_doc::Place::cockpit(words.caption(Caption::AsItCame));
    let bend = geometry::bend(&place, &bar).ok()?;
    let along_mm = (bend.along_from_s(bend.default_clamp().s_mm) * 10.0).round() / 10.0;
    let setting = LeverSetting { along_mm, turn_in_deg: 0.0, clicks: 0 };
    let cockpit = Cockpit {
        id: "as-it-came".to_owned(),
        label: words.caption(Caption::CameLabel).to_owned(),
        bar,
        stem: stock.stem(BEGINS_WITH_STEM)?.clone(),
        spacers_mm: BEGINS_WITH_SPACERS_MM,
        roll_deg: 0.0,
        levers: Some(Levers {
            lever: stock.lever(BEGINS_WITH_LEVER)?.clone(),
            left: setting,
            right: setting,
        }),
        drops_hand_mm: 0.0,
        saddle: Saddle::MIDDLE_SIZE,
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
    use fit_doc::tape::{not_read, stem_as_read};
    use fit_doc::{Message, Quantity, TapeItem, TapeReading};
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

    /// What is not read of a new client's bike: every number, until a hand or the tape has put it.
    #[test]
    fn a_number_is_read_once_a_hand_or_the_tape_has_put_it() {
        let stock = fit_file::stock::shipped().unwrap();
        let mut session = session(&stock, Date::constant(2026, 3, 2), &English).unwrap();
        let left = |session: &Session| not_read(session, &session.visits[0]);
        let all = left(&session);
        let [saddle, parts, frame] = [&all[..4], &all[4..15], &all[15..]];
        assert_eq!((saddle[0], parts[0]), (Quantity::SaddleHeight, Quantity::StemLength));
        assert_eq!(frame, [Quantity::FrameStack, Quantity::FrameReach, Quantity::Crank]);
        session.bikes[0].frame.stack_mm += 1.0;
        assert!(!left(&session).contains(&Quantity::FrameStack));
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.as_it_came.saddle.height_mm += 5.0;
        // the tape tells it, be it the number that stood there
        let value = visit.as_it_came.saddle.nose_behind_mm;
        let read = |item: TapeItem, value: f64| TapeReading { of: item.ways()[0], value };
        visit.tape.readings.push(read(TapeItem::NoseBehindAxle, value));
        assert_eq!(left(&session)[..2], [Quantity::SitFromNose, Quantity::SaddleTilt]);
        assert!(left(&session).contains(&Quantity::Roll), "nothing was read at the bar");
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.tape.readings.push(read(TapeItem::NoseToHood, 640.0));
        visit.tape.frame_known = true;
        let saddle = [Quantity::SitFromNose, Quantity::SaddleTilt];
        let stem = [
            Quantity::StemLength,
            Quantity::StemAngle,
            Quantity::StemClampHeight,
            Quantity::Spacers,
        ];
        // no reading tells the stem: it is read off it
        assert_eq!(left(&session), [&saddle[..], &stem, &[Quantity::Crank]].concat());
        let came = &mut Arc::make_mut(&mut session.visits[0]).as_it_came;
        came.stem = stem_as_read(&came.stem);
        assert_eq!(left(&session), [&saddle[..], &[Quantity::Crank]].concat());
        // a bike that did not begin so is taken as it is
        session.bikes[0].frame.wheel_radius_mm += 1.0;
        assert!(left(&session).is_empty());
    }
}
