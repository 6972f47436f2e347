"""Bulk jobs on a real local cluster: two worker processes answer bags and DataFrames as the service answers batches."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import TYPE_CHECKING

import jsonschema
import orjson
import pytest
from borewright import bulk
from borewright.api import create_app
from borewright.contract.documents import published

if TYPE_CHECKING:
    from distributed import Client

SCHEMAS = {
    name: jsonschema.Draft202012Validator(orjson.loads(text))
    for name, text in published.schemas_json().items()
    if name in ("hole-spec-reply", "problem")
}
THREADS = ("3/8-16 UNC-2B", "M8", "1/4-20 UNC-2B", "M10x1.25", "9/77 NOTHING")


@pytest.fixture(scope="module")
def cluster() -> Iterator[Client]:
    """Two processes of Dask, which is loaded only where these tests run, and once for both processes."""
    import dask

    dask.config.set({"distributed.worker.multiprocessing-method": "forkserver"})  # read as the next line loads it
    from distributed import Client, LocalCluster

    with (
        LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as local,
        Client(local) as client,
    ):
        yield client


def requests(count: int) -> list[dict[str, object]]:
    hole = {"type": "blind", "full_thread_depth": "12 mm"}
    return [{"id": f"KRP-{n}", "thread": THREADS[n % len(THREADS)], "hole": hole} for n in range(count)]


def served(items: list[dict[str, object]]) -> list[dict[str, object]]:
    """What the batch endpoint answers."""
    answer = create_app().test_client().post("/v1/hole-specs/batch", json={"items": items})
    assert answer.status_code == 200
    results: list[dict[str, object]] = answer.json["results"]
    return results


def comparable(result: dict[str, object]) -> dict[str, object]:
    """A result without what only an HTTP batch has: its index, and the request that a problem names."""
    kept = {key: value for key, value in result.items() if key != "index"}
    if "problem" in kept:
        kept["problem"] = {
            key: value for key, value in kept["problem"].items() if key not in ("instance", "request_id")
        }
    return kept


def test_bag_is_answered_like_a_batch(cluster):
    from dask import bag

    items = requests(60)
    results = bulk.specify_bag(bag.from_sequence(items, npartitions=6)).compute()
    assert [result["id"] for result in results] == [item["id"] for item in items]
    assert [comparable(result) for result in orjson.loads(orjson.dumps(results))] == [
        comparable(result) for result in served(items)
    ]
    assert {result["status"] for result in results} == {"ok", "error"}
    for result in results:
        SCHEMAS["hole-spec-reply" if result["status"] == "ok" else "problem"].validate(
            orjson.loads(orjson.dumps(result.get("spec") or result["problem"]))
        )


def test_work_is_done_by_two_processes(cluster):
    from dask import bag

    workers = cluster.run(os.getpid)
    assert len(set(workers.values())) == 2
    assert os.getpid() not in workers.values()
    bulk.specify_bag(bag.from_sequence(requests(40), npartitions=20)).compute()
    done = cluster.run(lambda dask_worker: dask_worker.state.executed_count)
    assert sum(done.values()) >= 20


def test_frame_is_answered_like_a_batch(cluster):
    import pandas as pd
    from dask import dataframe

    items = requests(30)
    rows = pd.DataFrame(
        {
            "id": [item["id"] for item in items],
            "thread": [item["thread"] for item in items],
            "hole.type": "blind",
            "hole.full_thread_depth": [0.5 if n % 2 else 12 for n in range(30)],
            "material": ["6061-T6" if n % 3 else None for n in range(30)],
            "percent_thread": [70 if n % 4 else float("nan") for n in range(30)],
        },
        index=[f"row {n}" for n in range(30)],
    )
    results = bulk.specify_frame(dataframe.from_pandas(rows, npartitions=3, sort=False)).compute()
    assert list(results.columns) == list(bulk.COLUMNS)
    assert list(results.index) == list(rows.index)
    for n, item in enumerate(items):
        item["hole"] = {"type": "blind", "full_thread_depth": 0.5 if n % 2 else 12}
        item.update({"material": "6061-T6"} if n % 3 else {})
        item.update({"percent_thread": 70} if n % 4 else {})
    for row, expected in zip(results.to_dict("records"), served(items), strict=True):
        assert (row["id"], row["status"]) == (expected["id"], expected["status"])
        if row["status"] == "ok":
            assert orjson.loads(row["spec"]) == expected["spec"]
        else:
            assert orjson.loads(row["problem"])["code"] == expected["problem"]["code"]


def test_defaults_and_whole_numbers(cluster):
    import pandas as pd
    from dask import dataframe

    frame = pd.DataFrame({"thread": ["M8", "M8x1"], "hole.full_thread_depth": [16, 12]})
    defaults = {"unit_system": "metric", "material": "6061-T6"}
    rows = dataframe.from_pandas(frame.assign(**{"hole.type": "blind"}), npartitions=1)
    results = bulk.specify_frame(rows, defaults=defaults).compute()
    assert list(results["status"]) == ["ok", "ok"]
    assert orjson.loads(results["spec"].iloc[0])["material"]["name"].endswith("6061-T6/T651")


@pytest.mark.parametrize(
    "record",
    [None, 8, "M8", {}, {"thread": float("nan")}, {"thread": "M8", "hole": {"type": "blind", "thickness": object()}}],
)
def test_a_bad_record_is_a_problem(record):
    result = bulk.answer(record)
    assert result["status"] == "error"
    SCHEMAS["problem"].validate(result["problem"])


def test_a_fault_of_ours_is_told_in_its_record_only(monkeypatch, caplog):
    monkeypatch.setattr(bulk, "specify", lambda request: 1 // 0)
    result = bulk.answer(requests(1)[0])
    assert result["problem"]["code"] == "internal_error"
    assert "ZeroDivisionError" in caplog.text


def parts(count: int) -> list[dict[str, object]]:
    hole = {"type": "blind", "full_thread_depth": "12 mm"}
    return [
        {
            "part": f"KRP-{n}",
            "holes": [
                {"id": name, "thread": f"{name}-{n % 2 + 2}B", "hole": hole} for name in ("1/4-20 UNC", "#10-24 UNC")
            ],
        }
        for n in range(count)
    ]


def test_parts_are_planned_like_requests_one_by_one(cluster):
    """Each part as the service plans it; a request that is wrong is a problem in its place."""
    from dask import bag

    asked = [*parts(5), {"part": "KRP-5", "holes": []}]
    defaults = {"material": "1018"}
    results = bulk.plan_bag(bag.from_sequence(asked, npartitions=3), defaults={"defaults": defaults}).compute()
    client = create_app().test_client()
    alone = [client.post("/v1/part-plans", json={**one, "defaults": defaults}).json for one in asked]
    assert [result["part"] for result in results] == [one["part"] for one in asked]
    assert orjson.loads(orjson.dumps([result["plan"] for result in results[:-1]])) == alone[:-1]
    assert (results[-1]["status"], results[-1]["problem"]["code"]) == ("error", alone[-1]["code"])
    assert bulk.plan(None)["problem"]["code"] == "body_not_object"
