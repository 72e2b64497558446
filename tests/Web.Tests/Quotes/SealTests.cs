using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;

namespace MitigationOffice.Web.Tests.Quotes;

public sealed class SealTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    /// <summary>What is not evidence: the count of saves, and what the office notes about a quote that came to nothing.</summary>
    private static readonly string[] NotEvidence = [nameof(Business.Data.Record.Version), nameof(QuoteRevision.DeclineReason), nameof(QuoteRevision.LostBecause), nameof(QuoteRevision.ClosedAtUtc)];

    [Fact]
    public async Task A_change_of_any_column_of_a_signed_quote_or_its_papers_is_found()
    {
        var (offer, signed) = await office.HouseWithSignedPhaseAsync();
        Assert.Empty(await ProblemsAsync());
        var revision = await office.WithDbAsync(db => db.QuoteRevisions.AsNoTracking().WithPrices().SingleAsync(r => r.Id == offer.RevisionId));
        (Type Type, int Id)[] rows =
        [
            (typeof(QuoteRevision), revision.Id), (typeof(QuoteTier), revision.Tiers[0].Id), (typeof(QuoteLine), revision.Tiers[1].Lines[0].Id), (typeof(QuoteAddOn), revision.AddOns[0].Id),
            (typeof(QuotePhase), revision.Phase!.Id), (typeof(Acceptance), signed.Id), (typeof(StoredDocument), signed.SignedDocumentId), (typeof(StoredDocument), signed.PdfDocumentId),
        ];
        var (missed, tried) = (new List<string>(), 0);
        foreach (var (type, id) in rows)
            foreach (var column in await ColumnsAsync(type))
            {
                tried++;
                if (!await IsFoundAsync(column.Table, column.Name, id)) missed.Add($"{column.Table}.{column.Name}");
            }

        Assert.True(missed.Count == 0, string.Join(", ", missed));
        Assert.True(tried > 120, $"Only {tried} columns were tried.");
        Assert.Empty(await ProblemsAsync());
    }

    private Task<List<(string Table, string Name)>> ColumnsAsync(Type type) => office.WithDbAsync(db =>
    {
        var entity = db.Model.FindEntityType(type)!;
        var table = entity.GetTableName()!;
        return Task.FromResult<List<(string, string)>>([.. entity.GetProperties().Where(p => !p.IsPrimaryKey() && !NotEvidence.Contains(p.Name)).Select(p => (table, p.GetColumnName())),
            .. entity.GetComplexProperties().SelectMany(c => c.ComplexType.GetProperties()).Select(p => (table, p.GetColumnName(StoreObjectIdentifier.Table(table))!))]);
    });

    private async Task<IReadOnlyList<string>> ProblemsAsync() =>
        [.. (await office.WithDbAsync(db => VerifyRecords.RunAsync(db))).Problems, .. (await office.WithDbAsync(db => VerifyAcceptances.RunAsync(db))).Problems];

    /// <summary>True as well where the database itself refuses the change.</summary>
    private async Task<bool> IsFoundAsync(string table, string column, int id)
    {
        var before = await ReadAsync(table, column, id);
        try
        {
            await WriteAsync(table, column, id, Other(before));
        }
        catch (DbException)
        {
            return true;
        }

        var found = await ProblemsOrUnreadableAsync();
        await WriteAsync(table, column, id, before);
        return found;
    }

    private async Task<bool> ProblemsOrUnreadableAsync()
    {
        try
        {
            return (await ProblemsAsync()).Count > 0;
        }
        catch (Exception e) when (e is FormatException or InvalidOperationException or InvalidCastException or ArgumentException)
        {
            return true;
        }
    }

    private static object Other(object value) => value switch
    {
        1L => 0L,
        long number => number + 1,
        int number => number + 1,
        bool yes => !yes,
        decimal number => number + 1,
        double number => number + 1,
        DateTime at => at.AddSeconds(1),
        DateOnly day => day.AddDays(1),
        byte[] bytes => (byte[])[.. bytes[..^1], (byte)(bytes[^1] ^ 1)],
        string { Length: > 0 } text when DateTime.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out var at) && text.Length >= 10 => text[..9] + (at.Day % 10 == 8 ? '7' : (char)('0' + (at.Day % 10 + 1) % 9)) + text[10..],
        string { Length: > 0 } text when decimal.TryParse(text, NumberStyles.Number, CultureInfo.InvariantCulture, out _) => text[..^1] + (text[^1] == '9' ? '8' : (char)(text[^1] + 1)),
        string text => text + "x",
        _ => 1,
    };

    private Task<object> ReadAsync(string table, string column, int id) => office.WithDbAsync(async db =>
    {
        await using var command = await CommandAsync(db, $"SELECT \"{column}\" FROM \"{table}\" WHERE \"Id\" = @id", id);
        return (await command.ExecuteScalarAsync())!;
    });

    private Task<bool> WriteAsync(string table, string column, int id, object value) => office.WithDbAsync(async db =>
    {
        await using var command = await CommandAsync(db, $"UPDATE \"{table}\" SET \"{column}\" = @value WHERE \"Id\" = @id", id);
        var typed = command.CreateParameter();
        (typed.ParameterName, typed.Value) = ("value", value);
        command.Parameters.Add(typed);
        return await command.ExecuteNonQueryAsync() == 1;
    });

    private static async Task<DbCommand> CommandAsync(OfficeDb db, string sql, int id)
    {
        await db.Database.OpenConnectionAsync();
        var command = db.Database.GetDbConnection().CreateCommand();
        var key = command.CreateParameter();
        (key.ParameterName, key.Value) = ("id", id);
        command.CommandText = sql;
        command.Parameters.Add(key);
        return command;
    }
}
