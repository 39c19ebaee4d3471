using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using Grpc.Core;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>SprayDayService of the contract.</summary>
internal sealed class SprayDayEndpoint(SprayDayPlanner planner) : Wire.SprayDayService.SprayDayServiceBase
{
    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override Task<Wire.SprayPlan> PlanSprayDay(Wire.PlanSprayDayRequest request, ServerCallContext context) =>
        Task.FromResult(SprayDayMapping.ToWire(planner.Plan(SprayDayMapping.ToQuestion(request))));
}
