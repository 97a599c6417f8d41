//! One act a file: read a projection, compute, append. The only place where ledger and science meet.
//!
//! What is computed: [`area`], [`scenario`], [`load`], [`site`], [`laid`], [`way`], [`treatment`], [`compare`], [`answer`],
//! [`dose`], [`forecast`], [`soil_test`], [`update`], [`question`], [`feed_plan`], [`purpose`], [`trial`], [`told`].
//!
//! What is written down, each at its [`moment`]: what comes ([`intake`], [`take_in_load`], [`storage`], [`test_batch`],
//! [`test_draw`], [`blend`], [`blend_batch`], [`recount_batch`]), where it goes ([`outline_place`], [`tree_rows`], [`reoutline_place`],
//! [`put_down`], [`work_soil`], [`lift_layer`], [`probe_depth`], [`check_gap`], [`close_place`]), what grows and is given
//! ([`grow_crop`], [`give_feed`], [`give_water`]), what is read ([`read_weather`], [`test_soil`], [`read_leaf`]), who does
//! what ([`name_person`], [`set_task`], [`close_task`]), and what is foretold ([`freeze_forecast`]). [`import_places`] and [`export_places`] take places from files and give them. [`mistake`] puts right
//! what was written wrongly.
//!
//! Of heaps: [`mix`], [`told_mix`], [`heat`], [`heat_chart`], [`consider_pile`], [`build_pile`], [`turn_pile`], [`read_heat`], [`read_moisture`], [`finish_pile`], [`maturity`], [`pile`].
//!
//! Of trials: [`lay_out_trial`], [`trial_plots`], [`score_plot`], [`measure_plot`], [`lose_plot`], [`close_trial`], [`trial_progress`], [`trial_result`], its charts [`trial_charts`].
//!
//! Back from the book: [`season`] (a place through time), [`consider`] (the answer before a load is put down), [`next_load`], [`lying`], [`dig_in`], [`lifted`], [`long_view`] (the same every year), [`place_scenario`],
//! [`measure`], [`stock`], [`today`], [`judge`]. In sentences: [`told`], [`told_area`] (what was measured), [`told_entry`] (an entry),
//! [`told_item`] (a task), [`told_map`] (places seen from above), [`refusal`] (why an act was not done).

#![allow(clippy::cast_precision_loss, reason = "grams, millilitres, days and counts are far below 2^53")]

pub mod answer;
pub mod area;
pub mod assumed;
pub mod blend;
pub mod blend_batch;
mod book_place;
mod book_soil;
mod book_weather;
pub mod build_pile;
pub mod calendar;
pub mod cautions;
pub mod check_gap;
pub mod close_place;
pub mod close_task;
pub mod close_trial;
pub mod compare;
pub mod consider;
pub mod consider_pile;
pub mod dig_in;
pub mod dose;
pub mod doubt;
pub mod error;
pub mod export_places;
pub mod feed_plan;
pub(crate) mod figure;
pub mod finish_pile;
pub mod forecast;
pub mod freeze_forecast;
pub mod give_feed;
pub mod give_water;
pub mod grow_crop;
pub mod heat;
pub mod heat_chart;
pub mod import_places;
mod in_words;
pub mod intake;
pub mod judge;
pub mod laid;
pub mod lay_out_trial;
pub mod lift_layer;
pub mod lifted;
pub mod load;
pub mod long_view;
pub mod lose_plot;
pub mod lying;
pub mod map;
pub mod maturity;
pub mod measure;
pub mod measure_plot;
pub mod mistake;
pub mod mix;
pub mod moment;
pub mod month_ticks;
pub mod name_person;
pub mod next_load;
pub mod orchard;
pub mod outline;
pub mod outline_place;
pub mod outlook;
pub mod pile;
pub mod pile_tasks;
pub mod place_scenario;
pub mod probe_depth;
pub mod purpose;
pub mod put_down;
pub mod question;
pub mod read_heat;
pub mod read_leaf;
pub mod read_moisture;
pub mod read_weather;
pub mod recount_batch;
pub mod refusal;
pub mod reoutline_place;
pub mod scenario;
pub mod score_plot;
pub mod season;
pub mod set_task;
pub mod set_up_place;
mod side_by_side;
pub mod site;
pub mod soil_test;
pub mod stock;
pub mod storage;
pub mod take_in_load;
pub mod test_batch;
pub mod test_draw;
pub mod test_soil;
pub mod today;
pub mod told;
pub mod told_area;
pub mod told_entry;
pub mod told_item;
pub mod told_map;
pub mod told_mix;
pub mod treatment;
pub mod tree_rows;
pub mod trial;
pub mod trial_charts;
pub mod trial_fault;
pub mod trial_in_book;
pub mod trial_plots;
pub mod trial_progress;
pub mod trial_result;
pub mod turn_pile;
pub mod update;
pub mod way;
pub mod work_soil;
