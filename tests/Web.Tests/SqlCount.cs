using System.Collections.Concurrent;
using System.Data.Common;
using Microsoft.AspNetCore.Http;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;

namespace MitigationOffice.Web.Tests;

/// <summary>Writes down the SQL statements that requests send to the database; what the office's own jobs send is left out.</summary>
public sealed class SqlCount(IHttpContextAccessor context) : DbCommandInterceptor
{
    public ConcurrentQueue<string> Statements { get; } = new();

    public override InterceptionResult<DbDataReader> ReaderExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result)
    {
        Note(command);
        return result;
    }

    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
    {
        Note(command);
        return ValueTask.FromResult(result);
    }

    public override ValueTask<InterceptionResult<int>> NonQueryExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<int> result, CancellationToken cancellationToken = default)
    {
        Note(command);
        return ValueTask.FromResult(result);
    }

    public override ValueTask<InterceptionResult<object>> ScalarExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<object> result, CancellationToken cancellationToken = default)
    {
        Note(command);
        return ValueTask.FromResult(result);
    }

    private void Note(DbCommand command)
    {
        if (context.HttpContext is not null) Statements.Enqueue(command.CommandText);
    }
}

/// <summary>An answer and the SQL it took.</summary>
public sealed record Counted(HttpResponseMessage Answer, IReadOnlyList<string> Statements);

public static class SqlCounting
{
    /// <summary>Sends something and counts the statements: <c>await office.CountSqlAsync(() =&gt; client.GetAsync(url))</c>. One at a time on one office.</summary>
    public static async Task<Counted> CountSqlAsync(this OfficeApp office, Func<Task<HttpResponseMessage>> send)
    {
        var count = office.Services.GetRequiredService<SqlCount>();
        count.Statements.Clear();
        var answer = await send();
        return new Counted(answer, [.. count.Statements]);
    }

    /// <summary>The page answers 200 with ten statements at most, and with one at least, or the counter is not counting.</summary>
    public static async Task AssertFewStatementsAsync(this OfficeApp office, HttpClient client, string url, int most = 10)
    {
        var (answer, statements) = await office.CountSqlAsync(() => client.GetAsync(url));
        Assert.True(answer.IsSuccessStatusCode, $"GET {url} answered {(int)answer.StatusCode}");
        Assert.NotEmpty(statements);
        Assert.True(statements.Count <= most, $"GET {url} took {statements.Count} statements:\n{string.Join("\n---\n", statements)}");
    }
}
