//! A mixture for a heap, in sentences.

use kerfbook_science::units::Mass;
use kerfbook_words::Words;

use crate::mix::Mixed;

/// What it comes to, what is to be added for its goals, and how much air is in it.
pub fn tell(mixed: &Mixed, words: &Words) -> Vec<String> {
    let mix = &mixed.mix;
    let moisture = mix.moisture().map_or_else(|| words.unknown(), |moisture| words.percent(moisture));
    let goal_moisture = mixed.goals.moisture.map_or_else(|| words.unknown(), |goal| words.percent(goal));
    let goal_ratio = mixed.goals.carbon_nitrogen.map_or_else(|| words.unknown(), |goal| words.rounded(goal));
    let mass = words.mass(mix.wet);
    let mut said = vec![match mix.carbon_nitrogen() {
        Some(ratio) => words
            .say("mix-answer", &[("mass", mass), ("moisture", moisture), ("ratio", words.rounded(ratio))]),
        None => words.say("mix-answer-no-nitrogen", &[("mass", mass), ("moisture", moisture)]),
    }];
    let water = mixed.water_to_add;
    let about_water =
        |id, amount: Mass| words.say(id, &[("amount", words.mass(amount)), ("goal", goal_moisture.clone())]);
    if mixed.solved
        && mixed.portions.iter().any(|one| one.solved && one.ingredient.is_water() && one.wet.kg() > 0.0)
    {
        said.push(about_water("mix-water-found", water));
    } else if water.kg() > 0.0 {
        said.push(about_water("mix-water-add", water));
    } else if water.kg() < 0.0 {
        said.push(about_water("mix-water-much", water * -1.0));
    }
    let nitrogen = mixed.nitrogen_to_add;
    let about_nitrogen = |id, amount: Mass| {
        words.say(id, &[("amount", words.nitrogen_mass(amount)), ("goal", goal_ratio.clone())])
    };
    if nitrogen.kg() > 0.0 {
        said.push(about_nitrogen("mix-nitrogen-add", nitrogen));
    } else if nitrogen.kg() < 0.0 {
        said.push(about_nitrogen("mix-nitrogen-much", nitrogen * -1.0));
    }
    said.push(match mixed.free_air_space {
        Some(space) => words.say("mix-air", &[("space", words.percent(space))]),
        None => words.label("mix-air-unknown"),
    });
    said
}
