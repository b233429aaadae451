from roofmodel.storage import migrations
from roofmodel.storage.job import SCHEMA_VERSION


def test_an_old_file_goes_through_every_step_in_order():
    steps = {
        1: lambda data: {**data, "trail": [*data["trail"], 1]},
        2: lambda data: {**data, "trail": [*data["trail"], 2]},
    }

    assert migrations.migrated({"trail": []}, version=1, to=3, steps=steps)["trail"] == [1, 2]


def test_there_is_a_step_from_every_older_version():
    assert set(migrations.STEPS) == set(range(1, SCHEMA_VERSION))


def test_a_default_that_version_3_wrote_itself_counts_as_not_entered():
    old = {"site": {"gutter_mm": 100.0, "box_outlets": 2, "run_error_mm": 0.0, "snow_zone": 3}}

    assert migrations.migrated(old, version=3, to=4)["site"] == {"box_outlets": 2, "snow_zone": 3}
    assert migrations.migrated({"code": "A"}, version=3, to=4) == {"code": "A"}
