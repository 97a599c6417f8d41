"""Random inputs of the nitrogen model that reach every key of its input, the same for the same seed."""

import math
import random

RAW = ("hardwood", "soft_hardwood", "pine", "slow_softwood", "resistant", "hardwood_bark", "softwood_bark")
GIVING = ("composted_wood", "compost", "straw", "leaves", "manure", "meal")
PARTICLES = ("dust", "shavings", "chips", "chunks")
FIXED = {"umax": (0.03, 0.25), "mixing": (1e-4, 1e-3), "phi": (0.5, 1.0), "tsel": (0.0, 1.0), "seam": (5.0, 20.0)}


def weather(rng, days):
    mean, swing, phase = rng.uniform(3, 27), rng.uniform(0, 12), rng.choice([0, 6])
    month_mean = [mean - swing * math.cos(2 * math.pi * (m - phase) / 12) for m in range(12)]
    made = {
        "month_mean_c": month_mean,
        "month_rain_mm": [rng.uniform(0, 150) for _ in range(12)],
        "month_et0_mm_day": [max(0.2, 0.5 + 0.18 * max(0.0, t)) for t in month_mean],
        "rain_every_days": rng.choice([1, 2, 3, 4, 5, 7]),
    }
    if rng.random() < 0.2:
        made["daily"] = {
            "mean_c": [rng.gauss(mean, 6) for _ in range(days)],
            "rain_mm": [rng.choice([0, 0, 0, rng.uniform(0, 40)]) for _ in range(days)],
            "et0_mm": [rng.uniform(0.2, 7) for _ in range(days)],
        }
    return made


def soil(rng):
    made = {
        "available_water_mm": rng.uniform(25, 80),
        "field_capacity_mm": rng.uniform(80, 140),
        "depth_cm": rng.uniform(12, 30),
        "organic_matter_pct": rng.uniform(0.5, 8),
        "mineral_nitrogen_kg_ha": rng.uniform(5, 200),
        "initial_water_share": rng.uniform(0.3, 1),
    }
    if rng.random() < 0.2:
        made["supply_kg_ha_year"] = rng.uniform(10, 150)
    return made


def annual(rng, days):
    sown = rng.randint(-20, 60)
    return {
        "kind": "annual",
        "name": "vegetable",
        "sown_day": sown,
        "harvest_day": sown + rng.randint(60, 140),
        "demand_kg_ha": rng.uniform(40, 250),
        "midpoint_days": rng.uniform(30, 80),
        "rate": rng.uniform(0.05, 0.14),
        "fixed_share": rng.choice([0, 0, 0, 0.6]),
    }


def tree(rng, days):
    first = rng.randint(0, 60)
    ring = rng.uniform(1, 6)
    made = {
        "kind": "tree",
        "name": "apple",
        "demand_g_tree": rng.uniform(20, 150),
        "ring_area_m2": ring,
        "windows": [[first, first + 70, 0.7], [first + 80, first + 140, 0.3]],
    }
    # The peer reads the area of the roots even where the share is given.
    made["root_area_m2"] = rng.uniform(0.5, 12)
    if rng.random() < 0.5:
        made["ring_share"] = rng.uniform(0.2, 1)
    return made


def layer(rng, days, way=None):
    way = way or rng.choice(["worked_in", "on_top", "on_top", "under"])
    material = rng.choice(RAW if rng.random() < 0.7 else GIVING)
    made = {"day": rng.randint(0, 30), "material": material, "way": way, "particle": rng.choice(PARTICLES)}
    dry = math.exp(rng.uniform(math.log(1), math.log(60)))
    amount = rng.choice(["dry", "wet", "depth"])
    if amount == "dry":
        made["dry_t_ha"] = dry
    elif amount == "wet":
        made.update(wet_t_ha=2 * dry, moisture_pct=rng.uniform(10, 75), moisture_half_width=rng.uniform(0, 15))
    else:
        made["depth_mm"] = rng.uniform(5, 120)
    if rng.random() < 0.4:
        made["carbon_nitrogen"] = rng.uniform(10, 600)
    if rng.random() < 0.2:
        made["carbon_nitrogen_sd"] = rng.uniform(0.02, 0.3)
    if rng.random() < 0.2:
        made["mass_sd"] = rng.uniform(0.0, 0.3)
    if rng.random() < 0.2:
        made["fines_share"] = rng.uniform(0, 1)
    if rng.random() < 0.15:
        made["carbon_share"] = rng.uniform(0.25, 0.52)
    if rng.random() < 0.15:
        made["dry_bulk_density_kg_m3"] = rng.uniform(60, 400)
    if rng.random() < 0.15:
        made["kL_factor"] = rng.uniform(0.5, 1.5)
    if rng.random() < 0.2:
        made["mineral_n_kg_ha"] = rng.uniform(1, 60)
        if rng.random() < 0.5:
            made["incorporated_days"] = rng.randint(1, 5)
    return made


def gift(rng, days):
    source = rng.choice(["nitrate", "urea", "ammonium_sulfate", "urine", "manure"])
    made = {"day": rng.randint(0, 100), "source": source, "placement": rng.choice(["mixed", "under", "top"])}
    if source == "urine" and rng.random() < 0.6:
        made["litres_m2"] = rng.uniform(0.3, 2)
    else:
        made["nitrogen_kg_ha"] = rng.uniform(5, 80)
    if rng.random() < 0.3:
        made["covered"] = True
    if rng.random() < 0.3:
        made["with_layer"] = True
    if source == "manure" and rng.random() < 0.5:
        made["incorporated_days"] = rng.randint(1, 5)
    return made


def readings(rng, made):
    """Of the last stage, within what is possible."""
    read = []
    if made["put_down"] and rng.random() < 0.6:
        read.append({"kind": "draw_test", "layer": rng.randrange(len(made["put_down"])),
                     "temperature_c": rng.uniform(15, 26), "dose_mg_litre": rng.uniform(80, 200),
                     "dry_g_per_litre": rng.uniform(10, 45), "index": rng.choice([0.0, rng.uniform(0.1, 1)])})
    if rng.random() < 0.6:
        read.append({"kind": "soil_nitrate", "day": rng.randint(1, 100), "kg_ha": rng.uniform(5, 80)})
    if made["crops"] and rng.random() < 0.6:
        read.append({"kind": "leaf", "day": rng.randint(1, 100), "crop": 0, "nni": rng.uniform(0.5, 1.2)})
    return read


def one_stage(rng):
    days = rng.choice([120, 150, 200, 365])
    made = {
        "days": days,
        "start_day_of_year": rng.randint(1, 365),
        "weather": weather(rng, days),
        "soil": soil(rng),
        "crops": [rng.choice([annual, annual, tree])(rng, days) for _ in range(rng.choice([0, 1, 1, 2]))],
        "put_down": [layer(rng, days) for _ in range(rng.choice([0, 1, 1, 2, 3]))],
        "gifts": [gift(rng, days) for _ in range(rng.choice([0, 1, 2, 3]))],
        "events": [],
    }
    if rng.random() < 0.3:
        made["watered"] = "enough"
    if rng.random() < 0.15:
        made["cover"] = True
    if rng.random() < 0.4:
        made["irrigation"] = [{"day": rng.randrange(days), "mm": rng.uniform(2, 30)} for _ in range(5)]
        made["irrigation_under_mulch"] = rng.random() < 0.5
        made["irrigation_nitrogen_mg_l"] = rng.choice([0.0, rng.uniform(1, 40)])
    if rng.random() < 0.15:
        made["container_litres"] = rng.uniform(3, 40)
    if rng.random() < 0.3:
        worked = {"kind": "soil_worked", "day": rng.randint(20, 110)}
        made["events"].append(worked | rng.choice([{}, {"share": rng.uniform(0.1, 1)}, {"depth_mm": rng.uniform(20, 200)}]))
    on_top = [i for i, put in enumerate(made["put_down"]) if put["way"] != "worked_in"]
    if on_top and rng.random() < 0.4:
        lifted = {"kind": "layer_lifted", "day": rng.randint(40, 110), "layer": rng.choice(on_top)}
        made["events"].append(lifted | {"share": rng.uniform(0.1, 1)})
    return made


def stages(rng, made):
    """A path whose mulch is lifted and laid elsewhere, or the same place going on."""
    made["weather"].pop("daily", None)
    first = {"days": rng.randint(60, 150), "put_down": [layer(rng, 60, "on_top")], "crops": []}
    first["put_down"][0]["day"] = 0
    if rng.random() < 0.5:
        first["lift_at_end"] = [{"layer": 0, "share": rng.uniform(0.3, 1)}]
        moved = {"day": rng.randint(0, 10), "way": rng.choice(["worked_in", "on_top"]), "from_stage": 0, "layer": 0,
                 "area_factor": rng.uniform(0.2, 2)}
        return [first, {"days": 150, "put_down": [moved]}]
    # A batch number of its own: layers kept from the first stage come before the second's.
    second = {"continue_from_stage": 0, "days": 150, "put_down": [dict(layer(rng, 150), batch=5)]}
    return [first, second]


def make(seed):
    """One input."""
    rng = random.Random(seed)
    made = {"seed": seed + 1, "draws": 24} | one_stage(rng)
    if rng.random() < 0.25:
        made["fixed_parameters"] = {name: rng.uniform(*FIXED[name]) for name in rng.sample(sorted(FIXED), 2)}
    if rng.random() < 0.3:
        made["stages"] = stages(rng, made)
        for kind in ("events", "gifts", "irrigation"):
            made[kind] = []
    elif rng.random() < 0.5:
        read = readings(rng, made)
        if read:
            made["readings"] = read
    return made
