"""The table of keys is the truth: every example is read as it says, every field is the model's."""

import dataclasses
import tomllib
from decimal import Decimal

import pytest

from buildbook.job import holding_model, model, shop_model
from buildbook.job.toml import key as keyed
from buildbook.job.toml import keys, shop_keys
from buildbook.job.toml.values import read_value
from buildbook.job.toml.working_keys import WORKED
from buildbook.trade import workings

TABLES = {
    table.heading or f"the top of {name}": table
    for name, table in (("job.toml", keys.JOB), ("shop.toml", shop_keys.SHOP))
}
TABLES |= {
    table.heading: table
    for table in (*keys.JOB_TABLES, *shop_keys.SHOP_TABLES, *WORKED.values())
    if table.heading
}
EACH = [pytest.param(key, id=f"{where} {key.name}") for where, table in TABLES.items() for key in table.keys]


@pytest.mark.parametrize("key", EACH)
def test_a_key_is_explained(key):
    assert key.reads in keyed.READS
    assert key.meaning[0].isupper()
    assert key.meaning.endswith((".", "…", "?"))


@pytest.mark.parametrize("key", [k for k in EACH if k.values[0].reads not in ("table", "tables")])
def test_an_example_is_read_as_the_key_says(key):
    value = tomllib.loads(f"x = {key.example}", parse_float=Decimal)["x"]
    assert read_value(value, key, "mm") not in (None, ())


@pytest.mark.parametrize(
    ("table", "record"),
    [
        (keys.OVERALL, model.Size),
        (keys.CLIMATE, shop_model.Climate),
        (keys.MADE_AT, shop_model.MadeAt),
        (keys.FINISH, model.Finish),
        (keys.HANGING, holding_model.Hanging),
        (keys.DELIVERY, model.Delivery),
        (keys.FASTENER, holding_model.Fastener),
        (keys.WALL, holding_model.Wall),
        (shop_keys.ALLOWANCES, shop_model.Allowances),
        (shop_keys.ESTIMATE, shop_model.Quoting),
        (shop_keys.PAYMENT, shop_model.Payment),
    ],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_the_keys_of_a_table_are_the_fields_of_its_record(table, record):
    assert {key.target for key in table.keys} == {field.name for field in dataclasses.fields(record)}


@pytest.mark.parametrize(
    ("table", "record", "elsewhere"),
    [
        (
            keys.JOB,
            model.Job,
            {"finish": "finishes", "worked": "workings", "photos": "photos", "delivery": "deliveries"},
        ),
        (shop_keys.SHOP, shop_model.Shop, {}),
    ],
    ids=["job", "shop"],
)
def test_every_key_has_a_field(table, record, elsewhere):
    fields = {field.name for field in dataclasses.fields(record)}
    assert {elsewhere.get(key.name, key.target) for key in table.keys} <= fields


@pytest.mark.parametrize(
    ("kind", "sum_", "beside"),
    [
        ("resaw", workings.resaw, set()),
        ("strips", workings.strips, set()),
        ("lengths", workings.lengths, set()),
        ("holes", workings.holes, {"spacing_m"}),
        ("fall", workings.fall_m, set()),
        ("taper", workings.taper_each_m, set()),
        ("coat count", workings.coat_count, {"finish"}),
        ("dowels", workings.dowels, {"thickness_m", "diameter_m"}),
    ],
)
def test_the_inputs_of_a_working_are_the_parameters_of_its_sum(kind, sum_, beside):
    own = {key.target for key in WORKED[kind].keys} - {"kind", "title", "note"}
    parameters = set(sum_.__code__.co_varnames[: sum_.__code__.co_argcount])
    assert own - beside == parameters
