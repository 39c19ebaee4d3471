"""At the car, without a photo: the next test, and what not to do."""

import argparse

from coatscan.v1 import finding_service_pb2, finding_service_pb2_grpc
from service import PHOTO_DEADLINE_S, Service, run


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("address", help="gRPC port, for example 127.0.0.1:8081")
    arguments.add_argument("evidence", nargs="*", help="what is seen, as ids such as form.rings")
    arguments.add_argument("--film-um", type=float, nargs="*", default=[], help="film readings, micrometers")
    arguments.add_argument("--key-file", help="file with the API key")
    given = arguments.parse_args()

    service = Service(given.address, given.key_file)
    finding = finding_service_pb2_grpc.FindingServiceStub(service.channel).RankCauses(
        finding_service_pb2.RankCausesRequest(facts=finding_service_pb2.PanelFacts(
            evidence=given.evidence, readings=finding_service_pb2.Readings(film_um=given.film_um))),
        timeout=PHOTO_DEADLINE_S, metadata=service.metadata)

    for one in finding.conditions[:3]:
        print(f"{one.display_name}: {one.probability:.0%}")
    for test in finding.next_tests[:2]:
        print(f"next: {test.test} ({test.minutes} min): {test.reason}")
    for never in finding.remedy.must_not:
        print(f"not: {never.operation}: {never.why}")


run(main)
