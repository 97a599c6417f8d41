//! One value, one encoding; and no bytes whatever make a reader panic.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use kerfbook_ledger::entry::codec::{CodecError, decode, encode};
use kerfbook_ledger::{Date, Entry, Hash, Hlc, HoldingId, Kind, Nonce, Refused, Value};
use ledger::samples::{self, Names};
use ledger::*;
use proptest::prelude::*;

fn envelopes() -> Vec<Vec<u8>> {
    let device = key(1).device();
    let id = |seq| kerfbook_ledger::EntryId { device, seq };
    let names = Names {
        batch: id(5),
        feed: id(7),
        crop: id(10),
        place: id(4),
        second: id(12),
        note: id(13),
        person: id(3),
        layer: id(8),
        lifted: id(22),
        pile: id(32),
        trial: id(37),
        task: id(30),
        leaf: id(29),
        photo: Some(id(40)),
    };
    (1..)
        .zip(samples::bodies(&names))
        .map(|(seq, body)| {
            let (kind, version, fields) = body.write().unwrap();
            Entry {
                holding: HoldingId::new(&key(1).public(), &Nonce([7; 16])),
                id: id(seq),
                hlc: Hlc::new(SPRING_MS, 0),
                prev: Hash::ZERO,
                by: None,
                subject: Some(names.place),
                date: day(1).date,
                minute: None,
                offset_min: -300,
                wall_ms: SPRING_MS,
                kind: kind.number(),
                version,
                body: fields,
            }
            .encode()
        })
        .collect()
}

fn value() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<i64>().prop_map(Value::Int),
        (-300_i64..300).prop_map(Value::Int),
        ".{0,30}".prop_map(Value::Text),
        proptest::collection::vec(any::<u8>(), 0..40).prop_map(Value::Bytes),
    ];
    leaf.prop_recursive(4, 40, 6, |inner| proptest::collection::vec(inner, 0..30).prop_map(Value::List))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn value_reads_back_the_same(value in value()) {
        let bytes = encode(&value);
        prop_assert_eq!(decode(&bytes), Ok(value));
    }

    #[test]
    fn mutated_envelope_is_refused_or_is_its_own_only_encoding(
        which in any::<prop::sample::Index>(),
        edits in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0_u8..3), 1..4),
    ) {
        let all = envelopes();
        let mut bytes = which.get(&all).clone();
        for (at, byte, how) in edits {
            if bytes.is_empty() {
                break;
            }
            let at = at.index(bytes.len());
            match how {
                0 => bytes[at] ^= byte.max(1),
                1 => bytes.insert(at, byte),
                _ => {
                    bytes.remove(at);
                }
            }
        }
        if let Ok(entry) = Entry::decode(&bytes) {
            prop_assert_eq!(entry.encode(), bytes);
            // Reading the body of whatever was accepted ends in a body, in whatever state.
            let _ = entry.read().names();
        }
    }

    #[test]
    fn noise_is_never_taken_for_anything_but_itself(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        if let Ok(value) = decode(&bytes) {
            prop_assert_eq!(encode(&value), bytes.clone());
        }
        prop_assert!(Entry::decode(&bytes).is_err());
    }
}

#[test]
fn every_envelope_reads_back_the_same_and_only_whole() {
    for bytes in envelopes() {
        assert_eq!(Entry::decode(&bytes).unwrap().encode(), bytes);
        for end in 0..bytes.len() {
            assert!(Entry::decode(&bytes[..end]).is_err());
        }
        let mut longer = bytes.clone();
        longer.push(0);
        assert_eq!(Entry::decode(&longer), Err(Refused::Encoding(CodecError::Trailing)));
    }
}

#[test]
fn other_encodings_of_the_same_thing_are_refused() {
    let cases: [(&[u8], CodecError); 12] = [
        (&[0x18, 0x05], CodecError::NotShortest),
        (&[0x19, 0x00, 0xff], CodecError::NotShortest),
        (&[0x38, 0x05], CodecError::NotShortest),
        (&[0x58, 0x01, 0x00], CodecError::NotShortest),
        (&[0x98, 0x01, 0x00], CodecError::NotShortest),
        (&[0x9f, 0x00, 0xff], CodecError::Type),
        (&[0xf9, 0x3c, 0x00], CodecError::Type),
        (&[0xa1, 0x00, 0x00], CodecError::Type),
        (&[0xc0, 0x00], CodecError::Type),
        (&[0xf5], CodecError::Type),
        (&[0x1b, 0x80, 0, 0, 0, 0, 0, 0, 0], CodecError::Number),
        (&[0x81, 0x81, 0x81, 0x81, 0x81, 0x81, 0x81, 0x81, 0x81, 0x00], CodecError::Depth),
    ];
    for (bytes, why) in cases {
        assert_eq!(decode(bytes), Err(why), "{bytes:02x?}");
    }
    // A list that claims to be longer than the bytes that are there.
    assert_eq!(decode(&[0x9b, 0x7f, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff]), Err(CodecError::Malformed));
    // Indefinite text and bytes.
    for bytes in [[0x7f, 0x61, 0x61, 0xff], [0x5f, 0x41, 0x61, 0xff]] {
        assert!(decode(&bytes).is_err());
    }
}

#[test]
fn envelope_of_another_format_or_out_of_range_is_refused() {
    let Ok(Value::List(items)) = decode(&envelopes()[7]) else { panic!("an envelope is a list") };
    let with = |at: usize, value: Value| {
        let mut items = items.clone();
        items[at] = value;
        Entry::decode(&encode(&Value::List(items)))
    };
    assert!(with(3, items[3].clone()).is_ok());
    assert_eq!(with(0, Value::Int(2)), Err(Refused::Format { format: 2, algorithm: 1 }));
    assert_eq!(with(1, Value::Int(2)), Err(Refused::Format { format: 1, algorithm: 2 }));
    for (at, value) in [
        (2, Value::Bytes(vec![0; 31])),
        (3, Value::Bytes(vec![0; 17])),
        (4, Value::Int(0)),
        (4, Value::Int(-1)),
        (5, Value::Int(-1)),
        (6, Value::Null),
        (7, Value::List(vec![])),
        (8, Value::Int(4)),
        (9, Value::Int(200_001)),
        (10, Value::Int(1_440)),
        (11, Value::Int(841)),
        (12, Value::Null),
        (13, Value::Int(65_536)),
        (14, Value::Int(-1)),
        (15, Value::Null),
    ] {
        assert!(with(at, value.clone()).is_err(), "item {at}: {value:?}");
    }
    let mut fifteen = items.clone();
    fifteen.pop();
    assert_eq!(Entry::decode(&encode(&Value::List(fifteen))), Err(Refused::Shape));
    let long = vec![0; kerfbook_ledger::entry::MAX_BYTES + 1];
    assert_eq!(Entry::decode(&long), Err(Refused::TooLong(long.len())));
}

#[test]
fn clock_never_goes_back_and_follows_no_one_beyond_a_day() {
    let day_ms = 86_400_000;
    let first = Hlc::tick(Hlc::ZERO, SPRING_MS);
    assert_eq!((first.ms(), first.counter()), (1_775_001_600_000, 0));
    assert!(Hlc::tick(first, SPRING_MS) > first);
    assert!(Hlc::tick(first, SPRING_MS - 10 * day_ms) > first, "a clock set back");
    assert!(Hlc::tick(first, -5) > first, "a clock before 1970");
    assert_eq!(Hlc::tick(Hlc::new(SPRING_MS, u16::MAX), 0), Hlc::new(SPRING_MS + 1, 0));
    assert!(!Hlc::new(SPRING_MS + day_ms, 0).ahead_of(SPRING_MS));
    assert!(Hlc::new(SPRING_MS + day_ms + 1, 0).ahead_of(SPRING_MS));
    let last = Hlc::new(i64::MAX, u16::MAX);
    assert_eq!(Hlc::tick(last, SPRING_MS), last, "the last reading there is");
}

#[test]
fn dates_and_ids_read_back_from_text() {
    for days in [-200_000, -1, 0, 20_544, 200_000] {
        let date = Date::from_days(days).unwrap();
        assert_eq!(Date::of(date.naive()).unwrap(), date);
    }
    assert_eq!(Date::from_days(20_544).unwrap().to_string(), "2026-04-01");
    assert!(Date::from_days(200_001).is_err());
    let id = kerfbook_ledger::EntryId { device: key(3).device(), seq: 17 };
    assert_eq!(kerfbook_ledger::EntryId::parse(&id.to_string()), Some(id));
    for wrong in ["", "-", "17", "zz-1", &format!("{}-0", id.device), &format!("{}-x", id.device)] {
        assert_eq!(kerfbook_ledger::EntryId::parse(wrong), None, "{wrong}");
    }
    for wrong in ["", "a label that is a little longer than forty", "two\nlines"] {
        assert!(kerfbook_ledger::Label::new(wrong).is_err(), "{wrong:?}");
    }
    assert_eq!(Kind::from_name("PutDown"), Some(Kind::PutDown));
}
