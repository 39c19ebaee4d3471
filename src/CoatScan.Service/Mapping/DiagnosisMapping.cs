using System.Globalization;
using Domain = CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>What was concluded -> contract.</summary>
internal static class DiagnosisMapping
{
    public static Wire.EvidenceItem ToWire(Domain.EvidenceItem item) => new()
    {
        Id = item.Id,
        Origin = UpperSnake.Of(item.Origin),
        Text = item.Text,
        SaidBy = { item.SaidBy },
    };

    public static Wire.ConditionShare ToWire(Domain.ConditionShare share)
    {
        var wire = new Wire.ConditionShare
        {
            Condition = ResourceNames.Condition(share.Condition),
            Probability = share.Probability,
            DisplayName = share.DisplayName,
        };
        wire.Evidence.Add(share.Evidence.Select(ToWire));
        return wire;
    }

    public static Wire.CauseShare ToWire(Domain.CauseShare share)
    {
        var wire = new Wire.CauseShare
        {
            Condition = ResourceNames.Condition(share.Condition),
            Cause = ResourceNames.Cause(share.Condition, share.Cause),
            Probability = share.Probability,
            Party = share.Party,
            Text = share.Text,
            Mechanism = share.Mechanism,
        };
        wire.Evidence.Add(share.Evidence.Select(ToWire));
        return wire;
    }

    public static Wire.PartyShare ToWire(Domain.PartyShare share) => new()
    {
        Party = share.Party,
        Probability = share.Probability,
        Text = share.Text,
        SpeaksFor = { share.For },
        SpeaksAgainst = { share.Against },
    };

    public static Wire.LookAlike ToWire(Domain.LookAlike pair)
    {
        var wire = new Wire.LookAlike
        {
            Condition = ResourceNames.Condition(pair.Condition),
            Other = ResourceNames.Condition(pair.Other),
            Tell = pair.Tell,
        };
        wire.DecidingTests.Add(pair.DecidingTests);
        return wire;
    }

    public static Wire.NextTest ToWire(Domain.NextTest test)
    {
        var wire = new Wire.NextTest
        {
            Test = test.Test,
            Minutes = test.Minutes,
            Invasiveness = test.Invasiveness,
            Reason = test.Reason,
            DisplayName = test.DisplayName,
            How = test.How,
            Caution = test.Caution,
            Consent = test.Consent,
        };
        if (test.GainBits is { } gainBits)
        {
            wire.GainBits = gainBits;
        }

        return wire;
    }

    public static Wire.Contradiction ToWire(Domain.Contradiction contradiction) => new()
    {
        First = contradiction.First,
        Second = contradiction.Second,
        Doubts = contradiction.Doubts,
        Text = contradiction.Text,
        Consequence = contradiction.Consequence,
    };

    public static Wire.Remedy ToWire(Domain.Remedy remedy)
    {
        var wire = new Wire.Remedy();
        wire.Steps.Add(remedy.Steps.Select(ToWire));
        wire.MustNot.Add(remedy.MustNot.Select(item => new Wire.MustNot
        {
            Operation = item.Operation,
            Why = item.Why,
            Scope = item.Scope,
        }));
        return wire;
    }

    public static Wire.Timing ToWire(Domain.Timing timing)
    {
        var wire = new Wire.Timing { Class = UpperSnake.Of(timing.Class) };
        wire.Fits.Add(timing.Fits);
        wire.DoesNotFit.Add(timing.DoesNotFit);
        return wire;
    }

    public static Wire.ClaimSheet ToWire(Domain.ClaimSheet claim) => new()
    {
        Dates = UpperSnake.Of(claim.Dates),
        DatesText = claim.DatesText,
        Questions = { claim.Questions },
        SignsOfAge = claim.SignsOfAge,
    };

    public static Wire.FilmMapEntry ToWire(Domain.FilmMapEntry entry) => new()
    {
        Panel = entry.Panel,
        Count = entry.Count,
        LowUm = entry.LowUm,
        MedianUm = entry.MedianUm,
        HighUm = entry.HighUm,
        FilmClass = UpperSnake.Of(entry.Class),
        Uneven = entry.Uneven,
        Text = entry.Text,
    };

    public static Wire.FilmBudget ToWire(Domain.FilmBudget budget)
    {
        var wire = new Wire.FilmBudget { LowUm = budget.LowUm, Text = budget.Text };
        if (budget.AllowanceUm is { } allowance)
        {
            wire.AllowanceUm = allowance;
        }

        if (budget.FaultDepthUm is { } depth)
        {
            wire.FaultDepthUm = depth;
        }

        return wire;
    }

    public static Wire.HandOver ToWire(Domain.HandOver handOver) => new()
    {
        Matter = handOver.Matter,
        Why = handOver.Why,
        To = handOver.To,
    };

    private static string IsoDate(DateOnly? day) =>
        day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    private static Wire.EvidenceWeight ToWire(Domain.EvidenceWeight weight) => new()
    {
        Id = weight.Id,
        WeightLog = weight.WeightLog,
        Reason = weight.Reason,
    };

    private static Wire.RemedyStep ToWire(Domain.RemedyStep step)
    {
        var wire = new Wire.RemedyStep
        {
            Operation = step.Operation,
            Action = step.Action,
            StopIf = step.StopIf,
            HoursFor = step.HoursFor,
            Materials = step.Materials,
            Condition = step.Condition.Length > 0 ? ResourceNames.Condition(step.Condition) : "",
            NotBefore = IsoDate(step.NotBefore),
            BetterFrom = IsoDate(step.BetterFrom),
        };
        if (step.SpendsUm is { } spends)
        {
            wire.SpendsUm = new Wire.FilmSpend { Low = spends.Low, High = spends.High };
        }

        if (step.Wait is { } wait)
        {
            wire.Wait = wait;
        }

        if (step.Hours is { } hours)
        {
            wire.Hours = new Wire.HourRange { Low = hours.Low, High = hours.High };
        }

        return wire;
    }
}
