//! One body of each kind that this version writes, every field filled.

use kerfbook_ledger::kind::{
    Age, Answer, Appetite, BatchBlended, BatchRecounted, BatchTested, Body, Colour, ContainerKind, Cover,
    CropEnded, CropStarted, DepthProbed, DeviceEnrolled, DrawTested, EntryCorrected, EntryWithdrawn, Fate,
    FeedGiven, ForecastFrozen, GapChecked, Handful, HeatRead, HoldingOpened, KnownBy, LaidBy, LayerLifted,
    LeafLayer, LeafRead, LoadRefused, LoadTakenIn, Measured, MoistureRead, NitrogenForm, NoteMade, Outcome,
    Part, Particle, PersonNamed, Pieces, PileBuilt, PileFinished, PileTurned, PlaceClosed, PlaceKind,
    PlaceOutlined, PlaceReoutlined, Placed, PlotLost, PlotMeasured, PlotScored, PutDown, Rain, RefusalReason,
    Replacement, Rolled, Smell, SoilTested, SoilWorked, Storage, Summers, TaskClosed, TaskKind, TaskSet,
    Tool, TrialClosed, TrialContrast, TrialDesign, TrialLaidOut, TrialPlot, TrialTreatment, WaterGiven,
    Watering, Way, WeatherRead, WeatherSpan, Weeks, Winters, Wood,
};
use kerfbook_ledger::{
    Anchor, Drive, EntryId, Kind, Nonce, Outline, Series, Text, TextRef, TreeRow, TreeRun, TreeState, Trees,
    UnlikeTree, Walked,
};

use super::{day, key, label};

pub(crate) fn text(number: u8, body: &str) -> Text {
    Text::new([number; 16], body)
}

pub(crate) fn texts() -> Vec<Text> {
    vec![
        text(1, "A. Person"),
        text(2, "the mill by the river"),
        text(3, "smelled of paint"),
        text(4, "rain came early"),
        text(5, "read off the wrong scale"),
        text(6, "[soil]\nclay_pct = 22\n"),
        text(7, "built over"),
        text(8, "look at the old leaves"),
        text(9, "rained on over the winter"),
        text(10, "kerfbook fixes 1\n-335000000 12500000 1800000000000 3500\n7 -2 1000 h110\n"),
    ]
}

fn of(number: usize) -> TextRef {
    texts()[number - 1].hash()
}

/// Ids that the samples name; in the sample book they are what they say.
pub(crate) struct Names {
    pub(crate) batch: EntryId,
    pub(crate) feed: EntryId,
    pub(crate) crop: EntryId,
    pub(crate) place: EntryId,
    pub(crate) second: EntryId,
    pub(crate) note: EntryId,
    pub(crate) person: EntryId,
    pub(crate) layer: EntryId,
    pub(crate) lifted: EntryId,
    pub(crate) pile: EntryId,
    pub(crate) trial: EntryId,
    pub(crate) task: EntryId,
    pub(crate) leaf: EntryId,
    pub(crate) photo: Option<EntryId>,
}

fn walked() -> Walked {
    Walked { drms_mm: 3_300, correlation_s: 60, used: 331, left_out: 4, laps: 2, fixes: vec![of(10)] }
}

fn trees() -> Trees {
    let line = Outline(vec![[0, 0], [8_000, 10]]);
    Trees {
        spacing_mm: Some(2_000),
        radius_mm: Some(900),
        gap_mm: Some(150),
        rows: vec![
            TreeRow { row: 12, trees: 5, line },
            TreeRow { row: 13, trees: 4, line: Outline::default() },
        ],
        unlike: vec![
            UnlikeTree { row: 12, tree: 2, state: Some(TreeState::Dead), radius_mm: None, gap_mm: None },
            UnlikeTree { row: 13, tree: 4, state: None, radius_mm: Some(1_400), gap_mm: Some(200) },
        ],
    }
}

#[allow(clippy::too_many_lines, reason = "a list")]
pub(crate) fn bodies(names: &Names) -> Vec<Body> {
    let weeks = |start: i32| Series((0..26).map(|week| start + week * (13 - week) * 11).collect());
    vec![
        HoldingOpened {
            name: label("Invented holding"),
            public_key: key(1).public(),
            nonce: Nonce([7; 16]),
            sells: true,
            certified: false,
            latitude_centidegree: Some(-3350),
        }
        .into(),
        DeviceEnrolled { public_key: key(1).public(), label: label("Desk") }.into(),
        PersonNamed { name: of(1) }.into(),
        PlaceOutlined {
            label: label("Bed 1"),
            place_kind: PlaceKind::Bed,
            measured: Measured::Walked,
            area_mm2: 12_000_000,
            anchor: Some(Anchor { latitude_e9: -33_500_000_000, longitude_e9: 1_250_000_001 }),
            outline: Outline(vec![[0, 0], [10_000, 25], [9_980, 1_225], [-20, 1_200]]),
            container_ml: Some(45_000),
            containers: Some(3),
            rooting_depth_mm: Some(300),
            area_sd_mm2: Some(310_000),
            walk: Some(walked()),
            further: Some(vec![Outline(vec![[1_000, 100], [1_000, 500], [2_000, 500]])]),
            trees: Some(trees()),
            cover: Some(Cover::Tunnel),
            watered: Some(Watering::WhenLeavesHang),
        }
        .into(),
        LoadTakenIn {
            label: label("Load 1"),
            material: label("hardwood sawdust"),
            model_class: Some(label("hardwood")),
            particle: Some(Particle::Dust),
            wet_g: Some(450_000),
            volume_ml: Some(1_500_000),
            moisture_bp: Some(4_000),
            carbon_nitrogen_x100: Some(40_000),
            wet_density_g_m3: Some(300_000),
            from: Some(of(2)),
            source: Some(label("sawmill")),
            treated: Answer::No,
            diseased: Answer::Unknown,
            salty: Answer::No,
            medicated: Answer::No,
            cut: Some(day(-40).date),
            cost_hundredths: Some(2_500),
            currency: Some(label("EUR")),
            haul_m: Some(12_000),
            minutes: Some(90),
            moisture_half_bp: Some(600),
            stored: Some(Storage::Covered),
            wood: Some(Wood::Hardwood),
            pieces: Some(Pieces::Coffee),
            handful: Some(Handful::Damp),
            age: Some(Age::Months),
            smell: Some(Smell::Earth),
        }
        .into(),
        LoadRefused {
            material: label("offcuts"),
            reason: RefusalReason::Painted,
            wet_g: Some(80_000),
            volume_ml: Some(300_000),
            from: Some(of(2)),
            note: Some(of(3)),
        }
        .into(),
        FeedGiven {
            source: label("blood meal"),
            nitrogen_mg: 96_000,
            product_g: Some(738),
            volume_ml: Some(1_200),
            placed: Placed::Under,
            crop_mg: Some(60_000),
            wood_mg: Some(36_000),
        }
        .into(),
        PutDown {
            batch: names.batch,
            way: Way::OnTopOverNitrogen,
            wet_g: Some(102_000),
            dry_g: Some(61_200),
            depth_mm: Some(50),
            area_mm2: Some(11_500_000),
            containers: Some(4),
            container: Some(ContainerKind::Barrow),
            container_ml: Some(85_000),
            over: Some(names.feed),
            gap_mm: Some(150),
            trees: Some(TreeRun {
                from_row: 12,
                from_tree: 9,
                to_row: 14,
                to_tree: 3,
                drive: Drive::Serpentine,
            }),
            laid_by: Some(LaidBy::Fingers),
            laid_x10: Some(25),
            known_by: Some(KnownBy::Depth),
        }
        .into(),
        WaterGiven { depth_mm: Some(12), volume_ml: Some(144_000), under: Some(true) }.into(),
        CropStarted {
            crop: label("white cabbage"),
            need_mg_m2: Some(18_000),
            tree_mg: Some(40_000),
            appetite: Some(Appetite::Unknown),
            ends: Some(day(120).date),
            midpoint_day: Some(70),
            fixed_bp: 2_500,
            plants: Some(24),
        }
        .into(),
        CropEnded { crop: names.crop, fate: Fate::CarriedOff, yield_g: Some(38_000) }.into(),
        ForecastFrozen {
            engine: 1,
            parameters: 1,
            seed: 42,
            runs: 200,
            inputs: of(6),
            first: day(3).date,
            weeks: Weeks {
                tied_p10: weeks(10),
                tied_p50: weeks(300),
                tied_p90: weeks(900),
                mineral_p10: weeks(1_000),
                mineral_p50: weeks(2_000),
                mineral_p90: weeks(3_000),
            },
            hungry_p10: Some(68),
            hungry_p50: Some(80),
            hungry_p90: Some(101),
            way: Some(Way::OnTop),
            wet_g: Some(102_000),
            containers: Some(4),
            container: Some(ContainerKind::Barrow),
            give_mg: 36_000,
            give_source: Some(label("blood meal")),
            look: Some(day(57).date),
            avoid: Some(label("dig-in-this-year")),
            cost_p10: -120,
            cost_p50: 800,
            cost_p90: 2_000,
            least_known: Some(label("what wood it is")),
        }
        .into(),
        NoteMade { text: of(4) }.into(),
        EntryCorrected {
            target: names.note,
            seen: vec![names.note.after(900), names.note.after(901)],
            replaced: vec![Replacement::subject(names.second), Replacement::minute(None)],
            reason: Some(of(5)),
        }
        .into(),
        EntryWithdrawn { target: names.note, seen: Vec::new(), reason: Some(of(5)) }.into(),
        PlaceClosed { reason: Some(of(7)) }.into(),
        PlaceReoutlined {
            measured: Measured::Taped,
            area_mm2: 11_800_000,
            anchor: Some(Anchor { latitude_e9: -33_500_000_100, longitude_e9: 1_250_000_101 }),
            outline: Outline(vec![[0, 0], [9_900, 25], [9_880, 1_225], [-20, 1_200]]),
            container_ml: Some(40_000),
            containers: Some(4),
            rooting_depth_mm: Some(350),
            area_sd_mm2: Some(40_000),
            walk: Some(walked()),
            further: Some(vec![Outline(vec![[1_000, 100], [1_000, 500], [2_000, 500]])]),
            trees: Some(trees()),
            cover: Some(Cover::None),
            watered: Some(Watering::Enough),
        }
        .into(),
        BatchTested {
            moisture_bp: Some(5_200),
            carbon_nitrogen_x100: Some(38_500),
            wet_density_g_m3: Some(340_000),
            sour: Some(Answer::No),
            method: Some(label("oven")),
            moisture_half_bp: Some(500),
            handful: Some(Handful::Drips),
            age: Some(Age::Year),
            smell: Some(Smell::Wood),
            wet_density_sd_bp: Some(310),
            ammonium_nitrate_x100: Some(85),
            dioxide_x100: Some(310),
            emergence_bp: Some(9_200),
            self_heating_centi_c: Some(850),
            oxygen_mg_kg_h: Some(240),
            germination_bp: Some(8_600),
            seedlings_hurt: Some(Answer::No),
            ash_bp: Some(1_840),
        }
        .into(),
        DepthProbed {
            layer: Some(names.layer),
            depths_mm: vec![40, 50, 40, 0],
            laid_by: Some(LaidBy::Fingers),
            laid_x10: Some(vec![20, 25, 20, 0]),
        }
        .into(),
        SoilWorked { depth_mm: 180, share_bp: Some(2_500), tool: Some(Tool::Fork), by_tool: Some(true) }
            .into(),
        LayerLifted {
            label: label("off the path"),
            layer: names.layer,
            share_bp: 4_000,
            wet_g: Some(38_000),
            volume_ml: Some(120_000),
            moisture_bp: Some(5_500),
        }
        .into(),
        BatchBlended {
            label: label("bedding mix"),
            material: label("stable bedding"),
            particle: Some(Particle::Shavings),
            parts: vec![
                Part { batch: names.batch, wet_g: Some(60_000), volume_ml: Some(200_000) },
                Part { batch: names.lifted, wet_g: Some(20_000), volume_ml: None },
            ],
            wet_g: Some(80_000),
            volume_ml: Some(260_000),
            moisture_bp: Some(4_400),
            carbon_nitrogen_x100: Some(9_000),
        }
        .into(),
        BatchRecounted { wet_g: Some(250_000), volume_ml: Some(900_000), reason: Some(of(9)) }.into(),
        GapChecked { gap_mm: 120, plants: Some(14), blocked_emitters: Some(2), mended: true }.into(),
        WeatherRead {
            span: WeatherSpan::Day,
            mean_centi_c: Some(-150),
            range_centi_c: Some(900),
            rain_ml_m2: Some(4_200),
            evaporation_ml_m2_day: Some(700),
            winters: Some(Winters::Frosty),
            summers: Some(Summers::Warm),
            rain: Some(Rain::Much),
        }
        .into(),
        SoilTested {
            top_mm: Some(0),
            bottom_mm: Some(300),
            organic_matter_bp: Some(310),
            clay_bp: Some(2_200),
            sand_bp: Some(3_500),
            bulk_density_g_m3: Some(1_350_000),
            ph_x100: Some(640),
            nitrogen_form: Some(NitrogenForm::NitrateN),
            mg_kg_x100: Some(1_250),
            mg_m2: Some(5_060),
            available_water_mm: Some(54),
            field_capacity_mm: Some(96),
            water_bp: Some(7_000),
            plain: Some(label("rolled")),
            rolled: Some(Rolled::Ribbon),
            colour: Some(Colour::Dark),
            last_crop_fed: Some(Answer::Unknown),
        }
        .into(),
        DrawTested { temperature_centi_c: 2_100, dose_mg_l: 150, dry_mg_l: 100_000, index_bp: 4_200 }.into(),
        LeafRead {
            crop: Some(names.crop),
            nutrition_bp: Some(8_700),
            against: Some(names.second),
            dgci_x10000: Some(5_100),
            hue_centideg: Some(9_850),
            yellow_bp: Some(800),
            brown_bp: Some(50),
            photo: names.photo,
        }
        .into(),
        TaskSet {
            what: TaskKind::Feed,
            due: Some(day(57).date),
            to: Some(names.person),
            text: Some(of(8)),
            source: Some(label("blood meal")),
            nitrogen_mg: Some(36_000),
            wet_g: Some(500),
        }
        .into(),
        TaskClosed {
            task: names.task,
            outcome: Outcome::Dropped,
            entry: Some(names.leaf),
            reason: Some(of(4)),
        }
        .into(),
        PileBuilt {
            label: label("pile by the gate"),
            place: Some(names.place),
            parts: vec![
                Part { batch: names.batch, wet_g: Some(90_000), volume_ml: Some(300_000) },
                Part { batch: names.lifted, wet_g: None, volume_ml: Some(40_000) },
            ],
            water_ml: Some(25_000),
            wet_g: Some(130_000),
            volume_ml: Some(330_000),
            moisture_bp: Some(5_800),
            carbon_nitrogen_x100: Some(2_900),
            rule: Some(label("us-organic-windrow")),
        }
        .into(),
        PileTurned { water_ml: Some(12_000) }.into(),
        HeatRead { zone: Some(label("core")), depth_mm: Some(450), temperature_centi_c: 6_125, smoke: false }
            .into(),
        MoistureRead { zone: Some(label("edge")), moisture_bp: 5_250 }.into(),
        PileFinished {
            label: label("compost of spring"),
            pile: names.pile,
            material: label("composted wood"),
            wet_g: Some(70_000),
            volume_ml: Some(140_000),
            moisture_bp: Some(4_800),
            carbon_nitrogen_x100: Some(1_800),
            supply_bp: Some(1_000),
            standing: Some(label("assumption")),
        }
        .into(),
        trial(names.place).into(),
        PlotScored {
            plot: 102,
            rater: Some(names.person),
            layer: LeafLayer::Old,
            yellow_bp: 1_500,
            again: false,
        }
        .into(),
        PlotMeasured {
            plot: 101,
            yield_g: Some(4_250),
            weed_bp: Some(500),
            moisture_bp: Some(2_150),
            stand: Some(18),
        }
        .into(),
        PlotLost { plot: 201, reason: of(4) }.into(),
        TrialClosed { note: Some(of(3)) }.into(),
    ]
}

/// Two pairs of bare ground and chips, and what was asked of them.
pub(crate) fn trial(place: EntryId) -> TrialLaidOut {
    let treatment = |name: &str, residue: Option<&str>| TrialTreatment {
        label: label(name),
        residue: residue.map(label),
        nitrogen_mg_m2: Some(6_000),
        ample: false,
    };
    let plot = |number: u32, treatment: u16| TrialPlot {
        number,
        block: u16::from(number > 200),
        row: u16::from(number > 200),
        column: u16::from(number % 100 == 2),
        treatment,
        sub: None,
    };
    TrialLaidOut {
        label: label("Chips on beans"),
        place: Some(place),
        design: TrialDesign::Pairs,
        seed: 20_260_403,
        generator: label("splitmix64"),
        generator_version: 1,
        refused: vec![of(4)],
        treatments: vec![treatment("bare", None), treatment("chips", Some("hardwood chips"))],
        subs: Vec::new(),
        factor: None,
        sub_factor: None,
        check: Some(0),
        sub_check: None,
        pairs: vec![vec![0, 1]],
        contrasts: vec![TrialContrast {
            label: label("chips less bare"),
            weights_x1000: vec![-1_000, 1_000],
        }],
        margin_bp: Some(300),
        width_mm: Some(2_000),
        length_mm: Some(4_000),
        guard_mm: Some(500),
        alley_mm: Some(1_000),
        plots: vec![plot(101, 1), plot(102, 0), plot(201, 0), plot(202, 1)],
    }
}

/// The kinds that this version writes are those of the samples.
pub(crate) fn kinds() -> Vec<Kind> {
    Kind::ALL.iter().copied().filter(|kind| kind.fields().is_some()).collect()
}
