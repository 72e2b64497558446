using System.Text.Json;
using System.Text.Json.Serialization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Business.Design;

/// <summary>A design's report: the stored one while nothing that goes into it changed, else one computed afresh.</summary>
public sealed record DesignResult(DesignReport? Report, string? Refusal, bool Stored, bool InputsChanged)
{
    /// <summary>What goes in as the records stand now; null where the design answers no PFE test.</summary>
    public DesignInputs? Inputs { get; init; }
}

/// <summary>Computes a design from the records and keeps the report beside the engine's version and the inputs' hash.</summary>
public static class ComputeDesign
{
    /// <summary>Reads or computes; stores nothing. A frozen design always shows what was stored.</summary>
    public static async Task<DesignResult> ReadAsync(OfficeDb db, SuctionDesign design)
    {
        if (await GatherDesign.InputsAsync(db, design) is not { } inputs)
            return new DesignResult(null, "This design answers no PFE test yet. Choose one in the route's form.", false, false);
        return Read(design, inputs) with { Inputs = inputs };
    }

    private static DesignResult Read(SuctionDesign design, DesignInputs inputs)
    {
        var same = design.InputsHash == inputs.Hash && design.EngineVersion == Engineering.Engine.Version;
        if ((same || design.FrozenAtUtc is not null) && Stored(design) is { } stored) return new DesignResult(stored, null, true, !same);
        if (design.FrozenAtUtc is not null) return new DesignResult(null, "The report this revision went out with was written by another version of the program; the quote’s paper holds its numbers.", true, !same);
        try
        {
            return new DesignResult(ComputeReport.Of(inputs.File), null, false, design.ReportJson is not null);
        }
        catch (DesignRefused e)
        {
            return new DesignResult(null, e.Message, false, false);
        }
    }

    private static readonly JsonSerializerOptions AsStored = new(DesignFileText.Json) { UnmappedMemberHandling = JsonUnmappedMemberHandling.Skip };

    /// <summary>The stored report; null where there is none or an earlier program wrote it in another shape.</summary>
    public static DesignReport? Stored(SuctionDesign design) => Stored(design.ReportJson);

    /// <inheritdoc cref="Stored(SuctionDesign)"/>
    public static DesignReport? Stored(string? reportJson)
    {
        try
        {
            return reportJson is { } json ? JsonSerializer.Deserialize<DesignReport>(json, AsStored) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Computes and stores, unless the stored report still stands or the design is frozen. Saves the design.</summary>
    public static async Task<DesignResult> StoreAsync(OfficeDb db, SuctionDesign design, TimeProvider clock)
    {
        var result = await ReadAsync(db, design);
        if (result.Stored || design.FrozenAtUtc is not null) return result;
        design.ReportJson = result.Report is null ? null : JsonSerializer.Serialize(result.Report, DesignFileText.Json);
        design.FreezeDaysAtRisk = result.Report?.Freeze?.DaysAtRisk;
        design.EngineVersion = result.Report?.EngineVersion;
        design.InputsHash = result.Report is null ? null : result.Inputs?.Hash;
        design.ComputedAtUtc = result.Report is null ? null : clock.GetUtcNow().UtcDateTime;
        await db.SaveChangesAsync();
        return result with { Stored = result.Report is not null, InputsChanged = false };
    }
}
