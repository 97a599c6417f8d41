//! Pictures of made-up seasons, kept as snapshots, and what must hold of any picture.

#![allow(clippy::unwrap_used, reason = "a failed step is a failed test")]
#![allow(clippy::cast_precision_loss, reason = "counts of days")]

use kerfbook_picture::{
    Anchor, BandChart, BandLabels, DisplayList, Item, Lies, MapChart, MapLabels, MapPlace, Mark, MarkKind,
    Point, Range, Reading, Ring, Role, Screen, Sheet, Tick, WayBar, WaysChart, WaysLabels, svg,
};
use proptest::prelude::*;

fn number(value: f64) -> String {
    let written = format!("{value:.2}");
    written.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn labels() -> BandLabels {
    BandLabels {
        band: "eight runs in ten".into(),
        median: "middle run".into(),
        bare: "nothing put down".into(),
    }
}

fn mark(day: f64, kind: MarkKind, label: &str) -> Mark {
    Mark { day, kind, label: label.into() }
}

/// A rise and a slow fall, with no function beyond arithmetic.
fn tie_up(day: f64) -> f64 {
    60.0 * day / (day + 25.0) * (1.0 - 0.7 * day / 365.0)
}

fn season() -> BandChart {
    let days = (0..=365).step_by(5).map(f64::from);
    let months = ["May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec", "Jan", "Feb", "Mar", "Apr"];
    BandChart {
        title: "Held by decay".into(),
        description: "Rises to 40 kg N/ha by July and falls slowly; the range is from 24 to 56.".into(),
        unit: "kg N/ha".into(),
        labels: labels(),
        days: 365.0,
        band: days
            .clone()
            .map(|day| (day, Range { p10: 0.6 * tie_up(day), p50: tie_up(day), p90: 1.4 * tie_up(day) }))
            .collect(),
        bare: days.map(|day| (day, 20.0 - day / 30.0)).collect(),
        months: months
            .iter()
            .enumerate()
            .map(|(n, name)| Tick { day: 12.0 + 30.4 * n as f64, label: (*name).into() })
            .collect(),
        marks: vec![
            mark(0.0, MarkKind::PutDown, "sawdust put on top, 5 cm"),
            mark(14.0, MarkKind::Feed, "urine, 40 kg N/ha"),
            mark(32.0, MarkKind::Look, "look 3 June"),
            mark(38.0, MarkKind::Hungry, "hungry 9 June"),
            mark(50.0, MarkKind::HungryBare, "bare bed hungry 21 June"),
            mark(330.0, MarkKind::Worked, "dug in 15 cm deep"),
            mark(360.0, MarkKind::Lifted, "lifted"),
        ],
        readings: vec![Reading {
            day: 75.0,
            value: 31.0,
            ends: Some((25.0, 38.0)),
            label: "soil strip".into(),
        }],
    }
}

fn way(name: &str, value: (f64, f64, f64)) -> WayBar {
    WayBar {
        name: name.into(),
        value: Range { p10: value.0, p50: value.1, p90: value.2 },
        label: format!("{} ({} to {})", value.1, value.0, value.2),
        ..WayBar::default()
    }
}

fn ways() -> WaysChart {
    WaysChart {
        title: "Nitrogen that the crop gets this season".into(),
        description: "Nothing put down gives 64 kg N/ha; only composted first and over urine give more."
            .into(),
        unit: "kg N/ha".into(),
        labels: WaysLabels {
            band: "eight runs in ten".into(),
            median: "middle run".into(),
            bare: "nothing put down".into(),
            less: "less than that".into(),
        },
        ways: vec![
            WayBar { bare: true, ..way("Nothing put down", (51.0, 64.0, 78.0)) },
            way("Composted first", (70.0, 89.0, 104.0)),
            way("On top over urine", (55.0, 73.0, 90.0)),
            WayBar { chosen: true, ..way("On top over finished compost", (37.0, 51.0, 66.0)) },
            way("On top", (33.0, 47.0, 61.0)),
            way("Worked in", (2.0, 8.0, 20.0)),
        ],
    }
}

#[test]
fn a_season_on_a_desk_and_on_a_phone() {
    for (name, screen) in [("desk", Screen::Desk), ("phone", Screen::Phone)] {
        let list = season().draw(screen, &number);
        insta::assert_snapshot!(format!("season_{name}_svg"), svg::document(&list));
        insta::assert_json_snapshot!(format!("season_{name}_list"), list);
    }
}

#[test]
fn ways_on_a_desk_and_on_a_phone() {
    for (name, screen) in [("desk", Screen::Desk), ("phone", Screen::Phone)] {
        let list = ways().draw(screen, &number);
        insta::assert_snapshot!(format!("ways_{name}_svg"), svg::document(&list));
        insta::assert_json_snapshot!(format!("ways_{name}_list"), list);
    }
}

const WAYS: [Lies; 7] =
    [Lies::Nothing, Lies::WorkedIn, Lies::OnTop, Lies::OverNitrogen, Lies::Composted, Lies::Path, Lies::Ring];

/// Beds beside each other, a path, a row of trees, and a bed of which only the shape is known.
fn holding() -> MapChart {
    let place = |number: usize, outline: Vec<[f64; 2]>| MapPlace {
        number: (number + 1).to_string(),
        outline,
        further: Vec::new(),
        rings: Vec::new(),
        lies: WAYS[number],
    };
    let bed = |number: usize| {
        let west = 1.8 * number as f64;
        place(number, vec![[west, 0.0], [west + 1.2, 0.0], [west + 1.2, 10.0], [west, 10.0]])
    };
    let mut places: Vec<MapPlace> = (0..5).map(bed).collect();
    places.push(place(5, vec![[-1.0, -2.5], [11.0, -2.5], [11.0, -1.0], [-1.0, -1.0]]));
    let tree = |number: u32| Ring { at: [2.5 * f64::from(number), 13.0], radius: 1.1, gap: 0.2 };
    let row = place(6, vec![[-1.0, 13.0], [13.5, 13.0]]);
    places.push(MapPlace { rings: (0..6).map(tree).collect(), ..row });
    let corner = vec![[0.0, 0.0], [4.0, 0.0], [4.0, 2.0], [2.0, 2.0], [2.0, 5.0], [0.0, 5.0]];
    let apart = MapPlace {
        number: "8".into(),
        outline: corner,
        further: Vec::new(),
        rings: Vec::new(),
        lies: Lies::OnTop,
    };
    MapChart {
        title: "Places seen from above".into(),
        description: "Seven places as they lie, and one by itself.".into(),
        sheets: vec![Sheet { places }, Sheet { places: vec![apart] }],
        unit_m: 1.0,
        labels: MapLabels {
            north: "N".into(),
            lies: WAYS.iter().map(|lies| (*lies, format!("{lies:?}"))).collect(),
        },
    }
}

fn metres(count: f64) -> String {
    format!("{} m", number(count))
}

#[test]
fn a_holding_on_a_desk_and_on_a_phone() {
    for (screen, name) in [(Screen::Desk, "desk"), (Screen::Phone, "phone")] {
        let list = holding().draw(screen, metres);
        check(&list).unwrap();
        insta::assert_snapshot!(format!("map_{name}_svg"), svg::document(&list));
    }
}

/// Pixels a metre, by the bar: its line, and the number at its end.
fn scale(list: &DisplayList) -> f64 {
    let level = |from: &Point, to: &Point| (from.y - to.y).abs() < 1e-9;
    let bar = list.items.iter().rev().find_map(|item| match item {
        Item::Line { role: Role::Border, from, to } if level(from, to) => Some(to.x - from.x),
        _ => None,
    });
    let told = list.items.iter().find_map(|item| match item {
        Item::Text { text, .. } => text.strip_suffix(" m")?.parse::<f64>().ok(),
        _ => None,
    });
    bar.unwrap() / told.unwrap()
}

#[test]
fn one_scale_for_all_and_the_bar_tells_it() {
    for screen in [Screen::Desk, Screen::Phone] {
        let list = holding().draw(screen, metres);
        let scale = scale(&list);
        let border = |item: &Item| match item {
            Item::Polyline { role: Role::Border, points } => Some(points.clone()),
            _ => None,
        };
        let borders: Vec<Vec<Point>> = list.items.iter().filter_map(border).collect();
        let (rings, outlines): (Vec<_>, Vec<_>) = borders.into_iter().partition(|points| points.len() > 40);
        assert_eq!(rings.len(), 2 * 6, "drip line and gap of each tree");
        let size = |points: &[Point]| {
            let ends = |of: fn(&Point) -> f64| {
                points
                    .iter()
                    .map(of)
                    .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
            };
            let ((west, east), (top, bottom)) = (ends(|at| at.x), ends(|at| at.y));
            (east - west, bottom - top)
        };
        let bed = (1.2, 10.0);
        let expected = [bed, bed, bed, bed, bed, (12.0, 1.5), (4.0, 5.0)];
        for (outline, (wide, high)) in outlines.iter().zip(expected) {
            // Pixels are kept to a tenth.
            let (across, down) = size(outline);
            assert!(
                (across - wide * scale).abs() < 0.25 && (down - high * scale).abs() < 0.25,
                "{outline:?}"
            );
        }
        // East is right and north is up: the second bed stands right of the first, the path below both.
        assert!(outlines[1][0].x > outlines[0][0].x && outlines[5][0].y > outlines[0][0].y);
    }
}

#[test]
fn each_way_has_a_pattern_of_its_own() {
    let only = |lies| {
        let square = vec![[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]];
        let place =
            MapPlace { number: "1".into(), outline: square, further: Vec::new(), rings: Vec::new(), lies };
        let chart = MapChart { sheets: vec![Sheet { places: vec![place] }], ..MapChart::default() };
        let of_pattern = |item: &&Item| {
            matches!(item, Item::Line { role: Role::Pattern, .. } | Item::Circle { role: Role::Pattern, .. })
        };
        let list = chart.draw(Screen::Desk, metres);
        format!("{:?}", list.items.iter().filter(of_pattern).collect::<Vec<_>>())
    };
    let all = WAYS.map(only);
    for (at, one) in all.iter().enumerate() {
        assert!(all.iter().skip(at + 1).all(|other| other != one));
    }
    assert_eq!(all[0], "[]");
}

#[test]
fn a_map_of_nothing_is_empty() {
    assert!(MapChart::default().is_empty());
    let nowhere = MapPlace {
        number: "1".into(),
        outline: vec![[f64::NAN, 0.0], [1e300, 0.0]],
        further: Vec::new(),
        rings: vec![Ring { at: [0.0, 0.0], radius: f64::NAN, gap: 0.0 }],
        lies: Lies::Nothing,
    };
    let chart = MapChart { sheets: vec![Sheet { places: vec![nowhere] }], ..MapChart::default() };
    assert!(chart.is_empty());
    check(&chart.draw(Screen::Phone, metres)).unwrap();
    assert!(!holding().is_empty());
}

#[test]
fn a_season_without_figures_still_has_its_axes() {
    let empty = BandChart { title: "Held by decay".into(), ..BandChart::default() };
    let list = empty.draw(Screen::Phone, &number);
    check(&list).unwrap();
    assert!(list.items.iter().any(|item| matches!(item, Item::Line { .. })));
    check(&WaysChart::default().draw(Screen::Phone, &number)).unwrap();
}

#[test]
fn losses_are_hatched_and_gains_are_not() {
    let hatched = |list: &DisplayList| {
        list.items.iter().filter(|item| matches!(item, Item::Line { role: Role::Hatch, .. })).count()
    };
    let only = |bar: WayBar| WaysChart {
        ways: vec![WayBar { bare: true, ..way("Nothing put down", (50.0, 50.0, 50.0)) }, bar],
        ..ways()
    };
    assert_eq!(hatched(&only(way("Composted first", (60.0, 70.0, 80.0))).draw(Screen::Desk, &number)), 0);
    assert!(hatched(&only(way("Worked in", (10.0, 20.0, 30.0))).draw(Screen::Desk, &number)) > 3);
}

#[test]
fn hostile_words_stay_words() {
    let chart = BandChart { title: "</title><script>alert(1)</script>&\u{1}".into(), ..season() };
    let written = svg::inline(&chart.draw(Screen::Desk, &number), "a\" onload=\"x");
    assert!(!written.contains("<script") && !written.contains('\u{1}') && !written.contains("onload=\""));
}

/// Advance of a letter in a common narrow font, parts of the size of type [from memory: Helvetica, Adobe's metrics].
fn advance(letter: char) -> f64 {
    match letter {
        '\'' => 0.191,
        'i' | 'j' | 'l' | '`' => 0.222,
        ' ' | '.' | ',' | ':' | ';' | '/' | '!' | 'f' | 't' | 'I' | '[' | ']' | '\\' | '|' => 0.278,
        '(' | ')' | '-' | 'r' | '{' | '}' | '"' => 0.355,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | 'J' => 0.5,
        'm' | 'M' => 0.833,
        'W' => 0.944,
        'A'..='Z' | 'w' => 0.722,
        'a'..='z' | '0'..='9' | 'á' | 'ñ' => 0.556,
        _ => 1.0,
    }
}

/// Left, top, right and bottom of a text in that font.
fn text_box(item: &Item) -> Option<(f64, f64, f64, f64)> {
    let Item::Text { role, at, anchor, text } = item else { return None };
    let wide = text.chars().map(advance).sum::<f64>() * role.type_size();
    let left = match anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - wide / 2.0,
        Anchor::End => at.x - wide,
    };
    Some((left, at.y - role.type_size() * 0.75, left + wide, at.y + role.type_size() * 0.2))
}

fn corners(item: &Item) -> Vec<Point> {
    match item {
        Item::Line { from, to, .. } => vec![*from, *to],
        Item::Polyline { points, .. } | Item::Area { points, .. } => points.clone(),
        Item::Rect { at, size, .. } => vec![*at, Point::at(at.x + size.x, at.y + size.y)],
        Item::Circle { at, radius, .. } => {
            vec![Point::at(at.x - radius, at.y - radius), Point::at(at.x + radius, at.y + radius)]
        }
        Item::Text { .. } => {
            let (left, top, right, bottom) = text_box(item).unwrap();
            vec![Point::at(left, top), Point::at(right, bottom)]
        }
    }
}

/// All coordinates are numbers inside the frame, and no two texts lie on each other.
fn check(list: &DisplayList) -> Result<(), TestCaseError> {
    prop_assert!(list.height.is_finite() && list.height > 0.0);
    for item in &list.items {
        for point in corners(item) {
            prop_assert!(point.x.is_finite() && point.y.is_finite(), "{item:?}");
            prop_assert!((-1.0..=list.width + 1.0).contains(&point.x), "{item:?}");
            prop_assert!((-1.0..=list.height + 1.0).contains(&point.y), "{item:?}");
        }
    }
    let boxes: Vec<_> = list.items.iter().filter_map(|item| Some((text_box(item)?, item))).collect();
    for (index, (a, first)) in boxes.iter().enumerate() {
        for (b, second) in boxes.iter().skip(index + 1) {
            let apart = a.2 <= b.0 || b.2 <= a.0 || a.3 <= b.1 || b.3 <= a.1;
            prop_assert!(apart, "{first:?} lies on {second:?}");
        }
    }
    Ok(())
}

fn anything() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => -50.0..400.0,
        2 => -1e7..1e9,
        1 => prop::sample::select(vec![f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, 0.0, -0.0, 1e-9]),
    ]
}

fn words() -> impl Strategy<Value = String> {
    prop_oneof!["[a-zA-Z0-9 ,.()áñ]{0,24}", "[A-Za-z ]{0,90}", "\\PC{0,12}"]
}

prop_compose! {
    fn any_mark()(day in anything(), kind in prop::sample::select(vec![
        MarkKind::PutDown, MarkKind::Feed, MarkKind::Hungry, MarkKind::HungryBare, MarkKind::Look,
        MarkKind::Worked, MarkKind::Lifted]), label in words()) -> Mark {
        Mark { day, kind, label }
    }
}

prop_compose! {
    fn any_range()(p10 in anything(), p50 in anything(), p90 in anything()) -> Range {
        Range { p10, p50, p90 }
    }
}

prop_compose! {
    fn any_band()(
        title in words(),
        unit in words(),
        names in (words(), words(), words()),
        days in anything(),
        band in prop::collection::vec((anything(), any_range()), 0..40),
        bare in prop::collection::vec((anything(), anything()), 0..40),
        months in prop::collection::vec((anything(), words()), 0..40),
        marks in prop::collection::vec(any_mark(), 0..12),
        readings in prop::collection::vec((anything(), anything(), prop::option::of((anything(), anything())), words()), 0..6),
    ) -> BandChart {
        BandChart {
            title, unit, days, band, bare, marks,
            description: String::new(),
            labels: BandLabels { band: names.0, median: names.1, bare: names.2 },
            months: months.into_iter().map(|(day, label)| Tick { day, label }).collect(),
            readings: readings.into_iter().map(|(day, value, ends, label)| Reading { day, value, ends, label }).collect(),
        }
    }
}

prop_compose! {
    fn any_ways()(
        title in words(),
        unit in words(),
        names in (words(), words(), words(), words()),
        ways in prop::collection::vec((words(), any_range(), words(), any::<bool>(), any::<bool>()), 0..12),
    ) -> WaysChart {
        WaysChart {
            title, unit,
            description: String::new(),
            labels: WaysLabels { band: names.0, median: names.1, bare: names.2, less: names.3 },
            ways: ways.into_iter()
                .map(|(name, value, label, bare, chosen)| WayBar { name, value, label, bare, chosen })
                .collect(),
        }
    }
}

prop_compose! {
    fn any_place()(
        number in "[0-9]{1,3}",
        outline in prop::collection::vec((anything(), anything()), 0..9),
        further in prop::collection::vec(prop::collection::vec((anything(), anything()), 0..5), 0..3),
        rings in prop::collection::vec((anything(), anything(), anything(), anything()), 0..4),
        lies in prop::sample::select(WAYS.to_vec()),
    ) -> MapPlace {
        MapPlace {
            number,
            lies,
            outline: outline.into_iter().map(|(x, y)| [x, y]).collect(),
            further: further.into_iter().map(|ring| ring.into_iter().map(|(x, y)| [x, y]).collect()).collect(),
            rings: rings.into_iter().map(|(x, y, radius, gap)| Ring { at: [x, y], radius, gap }).collect(),
        }
    }
}

prop_compose! {
    fn any_map()(
        title in words(),
        unit_m in 1e-3..1e3,
        sheets in prop::collection::vec(prop::collection::vec(any_place(), 0..4), 0..5),
        names in prop::collection::vec(words(), 0..4),
    ) -> MapChart {
        MapChart {
            title,
            unit_m,
            description: String::new(),
            sheets: sheets.into_iter().map(|places| Sheet { places }).collect(),
            labels: MapLabels {
                north: "N".into(),
                lies: names.into_iter().map(|name| (Lies::OnTop, name)).collect(),
            },
        }
    }
}

proptest! {
    #[test]
    fn any_map_lies_inside_its_frame(chart in any_map()) {
        for screen in [Screen::Phone, Screen::Desk] {
            check(&chart.draw(screen, metres))?;
        }
    }

    #[test]
    fn any_season_lies_inside_its_frame(chart in any_band()) {
        for screen in [Screen::Phone, Screen::Desk] {
            check(&chart.draw(screen, &number))?;
        }
    }

    #[test]
    fn any_ways_lie_inside_their_frame(chart in any_ways()) {
        for screen in [Screen::Phone, Screen::Desk] {
            check(&chart.draw(screen, &number))?;
        }
    }

    #[test]
    fn the_same_season_is_the_same_picture(chart in any_band()) {
        let once = svg::document(&chart.draw(Screen::Phone, &number));
        prop_assert_eq!(once, svg::document(&chart.clone().draw(Screen::Phone, &number)));
    }
}
