"""What docker/ holds: manifests follow the schemas of Kubernetes and fit the service; nginx reads its configuration."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import kubernetes_validate
import pytest
import requests
import yaml
from borewright.api import create_app
from borewright.api.problems import KINDS
from borewright.api.settings import Settings, from_environment

DOCKER = Path(__file__).parent.parent.parent / "docker"
MANIFESTS = {path.stem: yaml.safe_load(path.read_text("utf-8")) for path in sorted(DOCKER.glob("kubernetes/*.yaml"))}
POD: dict[str, Any] = MANIFESTS["deployment"]["spec"]["template"]
(CONTAINER,) = POD["spec"]["containers"]
COMPOSE: dict[str, Any] = yaml.safe_load((DOCKER / "compose.yaml").read_text("utf-8"))


@pytest.mark.parametrize("name", MANIFESTS)
@pytest.mark.parametrize("version", ["1.31", "1.37"])
def test_manifest_follows_its_schema(name, version):
    kubernetes_validate.validate(MANIFESTS[name], version, strict=True)


def test_the_schema_sees_what_is_wrong():
    wrong = yaml.safe_load(yaml.safe_dump(MANIFESTS["deployment"]))
    wrong["spec"]["template"]["spec"]["containers"][0]["readinesProbe"] = {}
    with pytest.raises(kubernetes_validate.ValidationError):
        kubernetes_validate.validate(wrong, "1.37", strict=True)


def test_all_kinds_are_there():
    assert {manifest["kind"] for manifest in MANIFESTS.values()} == {
        "ConfigMap",
        "Deployment",
        "HorizontalPodAutoscaler",
        "NetworkPolicy",
        "PodDisruptionBudget",
        "Secret",
        "Service",
    }


def test_the_example_of_a_secret_is_a_file_of_keys(tmp_path):
    """No key has a hash of noughts: nobody is let in by the example as it stands."""
    (held,) = [volume for volume in POD["spec"]["volumes"] if volume["name"] == "keys"]
    assert held["secret"]["secretName"] == MANIFESTS["secret.example"]["metadata"]["name"]
    file = tmp_path / "keys"
    file.write_text(MANIFESTS["secret.example"]["stringData"]["keys"], "ascii")
    (line,) = file.read_text("ascii").splitlines()
    assert re.fullmatch(r"[a-z]+:0{64}", line)


def test_the_autoscaler_alone_says_how_many_pods_there_are():
    assert "replicas" not in MANIFESTS["deployment"]["spec"]


def test_rules_and_page_name_figures_that_there_are():
    shown = create_app().test_client()
    shown.post("/v1/hole-specs", json={})
    figures = set(re.findall(r"^(borewright_\w+)", shown.get("/metrics").text, re.MULTILINE))
    known = figures | set(re.findall(r"^# TYPE (borewright_\w+)", shown.get("/metrics").text, re.MULTILINE))
    rules = yaml.safe_load((DOCKER / "monitoring" / "alerts.yaml").read_text("utf-8"))
    expressions = [rule["expr"] for group in rules["groups"] for rule in group["rules"]]
    panels = json.loads((DOCKER / "monitoring" / "dashboard.json").read_text("utf-8"))["panels"]
    expressions += [target["expr"] for panel in panels for target in panel["targets"]]
    page = (DOCKER / "README.md").read_text("utf-8")
    named = set(re.findall(r"borewright_\w+", " ".join(expressions))) | set(re.findall(r"`(borewright_\w+?)[{`]", page))
    assert len(named) >= 5
    assert {name for name in named if not any(one.startswith(name) for one in known)} == set()
    codes = re.findall(r"code(?:=~|=)\"([a-z_|]+)\"", " ".join(expressions))
    assert {code for some in codes for code in some.split("|")} <= KINDS.keys()


def test_the_page_of_deployment_names_files_that_there_are():
    page = (DOCKER / "README.md").read_text("utf-8")
    named = set(re.findall(r"docker/[a-z_/]+\.\w+(?:\.yaml)?", page))
    assert {f"docker/{path.relative_to(DOCKER)}" for path in DOCKER.glob("kubernetes/*.yaml")} <= named
    assert {name for name in named if not (DOCKER.parent / name).exists()} == set()


def test_they_mean_the_same_pods():
    labels = POD["metadata"]["labels"]
    for selector in (
        MANIFESTS["deployment"]["spec"]["selector"]["matchLabels"],
        MANIFESTS["disruption_budget"]["spec"]["selector"]["matchLabels"],
        MANIFESTS["network_policy"]["spec"]["podSelector"]["matchLabels"],
        MANIFESTS["service"]["spec"]["selector"],
    ):
        assert selector
        assert selector.items() <= labels.items()
    target = MANIFESTS["autoscaler"]["spec"]["scaleTargetRef"]
    assert (target["kind"], target["name"]) == ("Deployment", MANIFESTS["deployment"]["metadata"]["name"])
    # A disruption must always find a pod that may go.
    assert MANIFESTS["disruption_budget"]["spec"]["minAvailable"] < MANIFESTS["autoscaler"]["spec"]["minReplicas"]


def test_ports_are_those_of_the_service():
    settings = from_environment(MANIFESTS["config_map"]["data"])
    port = int(settings.bind.rpartition(":")[2])
    (named,) = CONTAINER["ports"]
    assert named["containerPort"] == port
    assert [one["targetPort"] for one in MANIFESTS["service"]["spec"]["ports"]] == [named["name"]]
    (ingress,) = MANIFESTS["network_policy"]["spec"]["ingress"]
    assert [one["port"] for one in ingress["ports"]] == [port]


def test_the_pod_has_no_rights_and_a_place_to_write():
    assert POD["spec"]["securityContext"]["runAsNonRoot"] is True
    assert POD["spec"]["automountServiceAccountToken"] is False
    assert POD["spec"]["enableServiceLinks"] is False
    rights = CONTAINER["securityContext"]
    assert rights == {
        "allowPrivilegeEscalation": False,
        "readOnlyRootFilesystem": True,
        "capabilities": {"drop": ["ALL"]},
    }
    mounts = {mount["name"]: mount for mount in CONTAINER["volumeMounts"]}
    (tmp,) = [volume for volume in POD["spec"]["volumes"] if "emptyDir" in volume]
    assert mounts[tmp["name"]]["mountPath"] == "/tmp"
    assert not mounts[tmp["name"]].get("readOnly")
    keys = Path(MANIFESTS["config_map"]["data"]["BOREWRIGHT_API_KEYS_FILE"])
    assert str(keys.parent) == mounts["keys"]["mountPath"]


def test_pods_call_nobody():
    policy = MANIFESTS["network_policy"]["spec"]
    assert set(policy["policyTypes"]) == {"Ingress", "Egress"}
    assert policy["egress"] == []


def test_probes_ask_what_is_answered_without_a_key():
    client = create_app().test_client()
    for probe in ("startupProbe", "livenessProbe", "readinessProbe"):
        path = CONTAINER[probe]["httpGet"]["path"]
        assert path in ("/health/live", "/health/ready")
        assert client.get(path).status_code == 200
    assert CONTAINER["livenessProbe"]["httpGet"]["path"] == "/health/live"  # a draining pod must not be killed


def test_a_stopping_pod_gets_the_time_it_needs():
    waits = int(CONTAINER["lifecycle"]["preStop"]["exec"]["command"][1])
    data = MANIFESTS["config_map"]["data"]
    grace = int(data.get("BOREWRIGHT_GRACEFUL_TIMEOUT_S", Settings().graceful_timeout_s))
    assert POD["spec"]["terminationGracePeriodSeconds"] > waits + grace


def test_compose_is_read_only_and_starts():
    service, balancer = COMPOSE["services"]["borewright"], COMPOSE["services"]["balancer"]
    assert from_environment(service["environment"]).bind.endswith(":" + service["expose"][0])
    for one in (service, balancer):
        assert one["read_only"] is True
        assert "/tmp" in one["tmpfs"]
    assert all(published.startswith("127.0.0.1:") for published in balancer["ports"])  # it is open to all who reach it
    assert "ports" not in service


@pytest.fixture
def balancer(tmp_path, processes, service_url) -> Iterator[str]:
    """The balancer of compose.yaml in front of the service."""
    with processes.balancer(tmp_path, service_url.removeprefix("http://")) as url:
        yield url


def test_balancer_passes_requests_refusals_and_streams(balancer):
    hole = {"thread": "M8", "hole": {"type": "through", "thickness": 12}}
    assert requests.post(f"{balancer}/v1/hole-specs", json=hole, timeout=10).status_code == 200
    large = requests.post(
        f"{balancer}/v1/hole-specs", data=b"x" * 3_000_000, headers={"Content-Type": "application/json"}, timeout=10
    )
    assert (large.status_code, large.json()["code"]) == (413, "body_too_large")
    line = b'{"thread": "M8", "hole": {"type": "through", "thickness": 12}}\n'
    batch = requests.post(
        f"{balancer}/v1/hole-specs/batch",
        data=iter([line * 100] * 10),
        headers={"Content-Type": "application/x-ndjson"},
        timeout=30,
    )
    assert batch.content.count(b'"status":"ok"') == 1000
