"""The gates on whole jobs: every sample by every method, and the pack for building control."""

import dataclasses
from datetime import date, timedelta
from functools import cache

import pypdfium2
import pytest

from roofmodel.drawings.pdf.pdf_pen import printable
from roofmodel.drawings.sets import control_pack
from roofmodel.foundation import resources
from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.heat.limits import Case, Nation
from roofmodel.gates.heat.modelled import ModelledU
from roofmodel.gates.heat_entry import ClimateEntry, HeatEntry
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.gates import control_set, gates
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.offer import indications
from tests import acceptance_jobs

DAY = date(2026, 11, 25)
SAMPLES = sorted(resources.sample_roofs().glob(f"*{job_file.SUFFIX}"))


def of(drawn, method=Method.BUILD_ROUND, *, today=DAY):
    return gates.gates(drawn, drawn.option_of(method), today=today)


@cache
def sample(path):
    """Return a sample as reckoned; its verdicts are made when first asked for, and kept."""
    return reckoning.reckon(job_file.read(path))


@cache
def judged(path, method):
    return of(sample(path), method)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.partition(".")[0])
@pytest.mark.parametrize("method", Method)
def test_every_gate_that_does_not_hold_says_what_to_do(path, method):
    drawn, found = sample(path), judged(path, method)

    assert len({check.name for check in found.checks}) == len(found.checks)
    for check in found.checks:
        assert check.outcome is Outcome.PASS or check.remedy, check.name
    option = drawn.option_of(method)
    if option.refit is not None:
        labels = [label for label, _ in indications.of_refit(option.refit, drawn.catalogue)]
        assert "U-value" in labels


def test_a_roof_too_flat_for_tiles_shows_the_refusal_first():
    found = of(acceptance_jobs.drawn("J02"))

    check = found.of("method")
    assert check.outcome is Outcome.FAIL
    assert "10.94°" in check.reason
    assert found.worst is Outcome.FAIL


def test_a_modelled_u_in_the_job_file_counts_for_its_method_only(tmp_path):
    path = tmp_path / f"modelled{job_file.SUFFIX}"
    lean_to = job_file.read(resources.sample_roofs() / f"lean-to{job_file.SUFFIX}")
    heat = HeatEntry(
        nation=Nation.ENGLAND,
        modelled=ModelledU(u_w_m2k=0.31, by="A. Modeller, report 7", method=Method.BUILD_ROUND),
    )
    job_file.write(dataclasses.replace(lean_to, heat=heat), path)
    drawn = reckoning.reckon(job_file.read(path))

    thermal = of(drawn, Method.BUILD_ROUND).of("thermal")
    assert (thermal.value, thermal.outcome) == (0.31, Outcome.FAIL)
    assert "A. Modeller, report 7" in str(thermal.source)
    assert of(drawn, Method.NEW_ROOF).of("thermal").value != 0.31


def test_survey_and_release_are_gates_too():
    found = of(acceptance_jobs.drawn("J01"))

    assert found.of("survey: readings").outcome is Outcome.MEASURE_AGAIN
    assert "measure the roof a second time" in found.of("revision").reason


def test_old_prices_are_asked_for_and_young_ones_are_not():
    drawn = acceptance_jobs.drawn("J01")
    later = DAY + timedelta(days=1000)

    assert of(drawn, today=DAY).of("prices").outcome is Outcome.PASS
    assert of(drawn, today=later).of("prices").outcome is Outcome.MEASURE_AGAIN


def test_the_stricter_limit_holds_until_building_control_says_the_case():
    new = HeatEntry(nation=Nation.ENGLAND, on=DAY).facts().limit
    said = HeatEntry(nation=Nation.ENGLAND, on=DAY, case=Case.RENOVATED).facts().limit

    assert (new.u_w_m2k, said.u_w_m2k) == (0.15, 0.16)
    assert HeatEntry().facts().limit is None


def test_an_own_limit_needs_its_document():
    with pytest.raises(DimensionError, match="document"):
        HeatEntry(u_limit_w_m2k=0.13)
    own = HeatEntry(u_limit_w_m2k=0.13, u_limit_source="letter of the inspector").facts().limit
    assert own.u_w_m2k == 0.13
    assert not own.source.verified
    assert own.words == "limit entered for the job, letter of the inspector"


def test_what_is_entered_about_the_site_is_kept_in_the_file_and_judged():
    drawn = acceptance_jobs.drawn("J01")
    entry = ClimateEntry(
        name="a station of our own invention",
        source="invented for this test",
        temperature_c=(4.0, 4.0, 6.0, 8.0, 11.0, 14.0, 16.0, 16.0, 14.0, 11.0, 7.0, 5.0),
        humidity_percent=(86.0, 84.0, 80.0, 76.0, 74.0, 74.0, 74.0, 76.0, 79.0, 83.0, 86.0, 87.0),
    )
    job = dataclasses.replace(
        drawn.job,
        site=SiteFacts(snow_zone=3, altitude_m=60.0, house_depth_m=8.0),
        heat=HeatEntry(nation=Nation.ENGLAND, case=Case.NEW, climate=entry),
    )
    read = job_file.loads(job_file.dumps(job))
    assert read == job

    found = of(reckoning.reckon(read))
    assert found.of("load: snow").value is not None
    assert found.of("thermal").limit == 0.15
    assert "invented" not in found.of("condensation").reason


def test_the_pack_says_indicative_on_every_page_and_leaves_no_gate_out(tmp_path):
    drawn = acceptance_jobs.drawn("J05")
    found = of(drawn)
    content = control_pack.content(control_set.gather(drawn, found, issued=DAY))

    assert content == control_pack.content(control_set.gather(drawn, found, issued=DAY))
    document = pypdfium2.PdfDocument(content)
    texts = [page.get_textpage().get_text_range() for page in document]
    assert all("INDICATIVE" in text for text in texts)
    assert all("not approved" in text for text in texts)
    whole = "\n".join(texts)
    for word in ("Fragile roofs", "Asbestos", "Electrics", "Work at height", "Fire", "Structure"):
        assert word in whole
    for title in ("U-value", "Condensation", "Loads before and after", "Drainage", "photographs"):
        assert title in whole
    for place in ("eaves of F", "box gutter of F", "ridge between", "hip between"):
        page = next(text for text in texts if f"Detail: {place}" in text)
        assert "1 : 5, mm" in page
    for check in found.checks:
        assert f"{check.name}: {check.outcome}"[:40] in whole


@pytest.mark.parametrize("path", SAMPLES[::4], ids=lambda path: path.name.partition(".")[0])
def test_every_sign_of_the_gates_can_be_printed(path):
    for method in Method:
        for check in judged(path, method).checks:
            words = [check.question, check.reason, check.remedy, *map(" ".join, check.details)]
            for one in words:
                assert printable(one).count("?") == one.count("?"), one


def test_what_keeps_a_price_from_being_firm_and_a_roof_from_handover_is_the_tables():
    drawn = acceptance_jobs.drawn("J10")
    checks = drawn.verdicts(drawn.option)
    table = blocks.shipped()
    pack = control_set.handover(drawn, drawn.option, issued=DAY)

    assert [row[0] for row in pack.unsettled] == [
        check.name for check in table.blocking(checks, Binding.HANDOVER)
    ]
    assert ("survey: readings" in {c.name for c in table.blocking(checks, Binding.PRICE)}) is True
    assert any(row[0].startswith("deck") and row[1] == "fail" for row in pack.unsettled)
