using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Endurance;

/// <summary>One run: an office whose reminders are all due, jobs processes that are killed, and the count at the end.</summary>
public sealed class KillRun : IAsyncDisposable
{
    /// <summary>A Monday, ten in the morning where the houses stand.</summary>
    public static readonly DateTime Begin = new(2026, 3, 2, 16, 0, 0, DateTimeKind.Utc);

    /// <summary>So far the clock goes on from life to life: claims of the dead lapse, and in the course of the run uncertain ones come back.</summary>
    private static readonly TimeSpan BetweenLives = TimeSpan.FromMinutes(26);

    private readonly string _folder = Directory.CreateTempSubdirectory("office-endurance-").FullName;
    private readonly ThrowAwayDatabase? _server = ThrowAwayDatabase.FromEnvironment();
    private readonly Random _dice;
    private readonly ScriptedServer[] _mail;
    private readonly int _messages, _kills;
    private readonly Dictionary<string, int> _killedAt = new(StringComparer.Ordinal);
    private DateTime _now = Begin;

    public KillRun(int messages, int kills, int seed)
    {
        (_messages, _kills, _dice) = (messages, kills, new Random(seed));
        // One address for each process, so that the server knows whom it talks with.
        _mail = [.. Enumerable.Range(0, _server is null ? 1 : 2).Select(i => new ScriptedServer(seed + i))];
    }

    public async Task<Finding> RunAsync()
    {
        var watch = Stopwatch.StartNew();
        if (_server is not null) await _server.MakeAsync();
        await using var office = Pump.Services(Orders(_mail[0]), TimeProvider.System);
        await FillOffice.RunAsync(office, _messages, Begin);
        var filled = watch.Elapsed;
        await KillAllAsync();
        using var last = new Life(Orders(_mail[0]));
        // After a pause that the server asked for, and after the claims of the dead.
        _now += TimeSpan.FromMinutes(30);
        await last.DrainAsync(_now);
        var listed = (await WithDbAsync(office, CountRun.UncertainAsync)).ToDictionary(id => id, id => _mail.Any(m => m.Kept.ContainsKey(id)), StringComparer.Ordinal);
        foreach (var server in _mail) server.Kind = true;
        // Refusals for now come back within hours, the uncertain ones after a day.
        for (var rounds = 0; rounds < 12; rounds++)
        {
            _now += TimeSpan.FromHours(6.5);
            await last.DrainAsync(_now);
        }

        return await WithDbAsync(office, db => CountRun.ReadAsync(db, _mail, new RunFigures(
            _server is null ? "SQLite, one jobs process" : "PostgreSQL, two jobs processes", _messages, _killedAt, listed, filled, watch.Elapsed)));
    }

    private PumpOrders Orders(ScriptedServer mail) => new(_folder, _server?.ConnectionString ?? "", mail.Port);

    private async Task KillAllAsync()
    {
        var next = _mail.Select(m => new Life(Orders(m))).ToArray();
        for (var killed = 0; killed < _kills; killed += _mail.Length)
        {
            var lives = next;
            await Task.WhenAll(lives.Select(l => l.Ready));
            // The next ones make themselves ready while these work.
            next = killed + _mail.Length < _kills ? [.. _mail.Select(m => new Life(Orders(m)))] : [];
            await Task.WhenAll(lives.Select((life, i) => LiveAndDieAsync(life, _mail[i])));
            foreach (var life in lives) life.Dispose();
            _now += BetweenLives;
        }
    }

    /// <summary>Killed at a chosen place of a chosen talk with the server, or some time after the first talk began, or some time after
    /// it began to work; in any case within twenty seconds.</summary>
    private async Task LiveAndDieAsync(Life life, ScriptedServer mail)
    {
        var (way, place, talks) = (_dice.Next(100), (Step)_dice.Next(1, Enum.GetValues<Step>().Length), 1 + _dice.Next(40));
        var (atPlace, afterTalk) = (way < 60, way is >= 60 and < 90);
        var wait = atPlace || afterTalk ? 20_000 : 20 + _dice.Next(1500);
        var (later, talking) = (_dice.Next(400), 0);
        mail.At = step =>
        {
            if (atPlace && step == place && Interlocked.Decrement(ref talks) == 0) Note(life.Kill(), place.ToString());
            if (afterTalk && Interlocked.Exchange(ref talking, 1) == 0) _ = Task.Delay(later).ContinueWith(_ => Note(life.Kill(), "in the midst"), TaskScheduler.Default);
        };
        await life.BeginAsync(_now);
        if (await Task.WhenAny(life.Ended, Task.Delay(wait)) != life.Ended) Note(life.Kill(), atPlace || afterTalk ? "idle" : "soon after the start");
        await life.Ended;
        if (await life.Said is { Length: > 0 } said) throw new InvalidOperationException($"The jobs process ended by itself: {said}");
        mail.At = _ => { };
    }

    private void Note(bool killed, string place)
    {
        if (!killed) return;
        lock (_killedAt) _killedAt[place] = _killedAt.GetValueOrDefault(place) + 1;
    }

    private static async Task<T> WithDbAsync<T>(ServiceProvider office, Func<OfficeDb, Task<T>> act)
    {
        await using var scope = office.CreateAsyncScope();
        return await act(scope.ServiceProvider.GetRequiredService<OfficeDb>());
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var server in _mail) await server.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (_server is not null) await _server.DropAsync();
        Directory.Delete(_folder, recursive: true);
    }
}
