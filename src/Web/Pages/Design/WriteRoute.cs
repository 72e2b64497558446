using System.Globalization;
using MitigationOffice.Business.Design;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>Reads the lines of a route form, the route and its branches, into a design. Rows are kept in order, so that a changed
/// piece stays the same record.</summary>
public static class WriteRoute
{
    /// <summary>Refuses at the fields what is wrong with a branch; gives back what is wrong with the route itself.</summary>
    public static IEnumerable<string> Into(SuctionDesign d, RouteForm form, FormReading read, IReadOnlyList<TestChoice> tests)
    {
        var (pieces, branches) = (d.Pieces.ToList(), d.BranchesInOrder().ToList());
        var rows = form.Points.Select((p, i) => (Row: p, At: i)).Where(p => !p.Row.IsEmpty).ToList();
        d.Pieces.Clear();
        d.Branches.Clear();
        WriteLine(d, pieces, 0, form.Pieces, "Pieces", read);
        for (var n = 1; n <= rows.Count; n++)
        {
            var branch = n <= branches.Count ? branches[n - 1] : new SuctionBranch { Name = "" };
            branch.Number = n;
            WriteLine(d, pieces, n, rows[n - 1].Row.Pieces, Say($"Points[{rows[n - 1].At}].Pieces"), read);
            d.Branches.Add(branch);
            WritePoint(d, branch, rows[n - 1].Row, Say($"Points[{rows[n - 1].At}]"), form, [.. rows.Select(r => r.At)], read);
        }

        RefuseBranches(d, form, [.. rows.Select(r => r.At)], read, tests);
        return RouteRules.Problems(d.Line());
    }

    private static void WriteLine(SuctionDesign d, List<RoutePiece> had, int branch, List<RouteForm.PieceRow> rows, string path, FormReading read)
    {
        var kept = had.Where(p => p.Branch == branch).OrderBy(p => p.Position).ToList();
        var position = 0;
        for (var i = 0; i < rows.Count; i++)
        {
            if (rows[i].IsEmpty) continue;
            var piece = position < kept.Count ? kept[position] : new RoutePiece();
            RouteForm.WritePiece(piece, rows[i], Say($"{path}[{i}]"), read);
            (piece.Branch, piece.Position) = (branch, position++);
            d.Pieces.Add(piece);
        }
    }

    private static void WritePoint(SuctionDesign d, SuctionBranch branch, RouteForm.PointRow row, string path, RouteForm form, List<int> rows, FormReading read)
    {
        branch.Name = read.Text(row.Name, path + ".Name", "name", most: 60).Trim();
        branch.PressureFieldTestId = int.TryParse(row.TestId, NumberStyles.None, CultureInfo.InvariantCulture, out var test) ? test : null;
        var joins = int.TryParse(row.JoinsInto, NumberStyles.None, CultureInfo.InvariantCulture, out var into) ? into : 0;
        branch.JoinsBranch = joins == 0 ? 0 : rows.IndexOf(joins - 1) + 1 is var n and > 0 ? n : -1;
        var line = joins == 0 ? form.Pieces : form.RowsOf(joins - 1) ?? [];
        var after = read.Whole(row.JoinsAfter, path + ".JoinsAfter", "number of the piece", 0, RouteForm.MostPieces, needed: true) ?? 0;
        branch.JoinsAfterPiece = after > line.Count ? int.MaxValue : line.Take(after).Count(p => !p.IsEmpty);
    }

    private static void RefuseBranches(SuctionDesign d, RouteForm form, List<int> rows, FormReading read, IReadOnlyList<TestChoice> tests)
    {
        int Shown(int branch, int place) => RowOf(branch == 0 ? form.Pieces : form.Points[rows[branch - 1]].Pieces, place);
        foreach (var fault in BranchRules.Faults(d, id => tests.FirstOrDefault(t => t.Id == id)?.Pits.Count, Shown))
            read.Refuse(Say($"Points[{rows[fault.Branch - 1]}].{Field(fault.Part)}"), fault.Words);
    }

    /// <summary>The number in the form of the piece at a place of its line, empty rows counted.</summary>
    private static int RowOf(List<RouteForm.PieceRow> line, int place) =>
        line.Select((row, i) => (row, Number: i + 1)).Where(r => !r.row.IsEmpty).Skip(place - 1).Select(r => r.Number).FirstOrDefault(line.Count);

    private static string Field(BranchPart part) => part switch
    {
        BranchPart.Name => nameof(RouteForm.PointRow.Name),
        BranchPart.Test => nameof(RouteForm.PointRow.TestId),
        BranchPart.JoinsInto => nameof(RouteForm.PointRow.JoinsInto),
        BranchPart.JoinsAfter => nameof(RouteForm.PointRow.JoinsAfter),
        _ => "Pieces[0].Kind",
    };

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
