using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Tests.Shop;

public sealed class ShopTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_price_item_is_added_and_its_price_holds_cost_markup_and_labour()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/prices/new", new()
        {
            ["Input.Code"] = "LID-T",
            ["Input.Name"] = "Sealed sump lid",
            ["Input.Kind"] = "Material",
            ["Input.Use"] = "AddOn",
            ["Input.Cost"] = "$80",
            ["Input.MarkupPercent"] = "50",
            ["Input.LabourMinutes"] = "30",
            ["Input.Taxable"] = "true",
            ["Input.Reason"] = "Keeps soil gas out.",
        });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var kept = await office.WithDbAsync(db => db.PriceItems.SingleAsync(p => p.Code == "LID-T"));
        Assert.Equal(Money.FromDollars(80m * 1.5m + 95m / 2), kept.PriceAt(Money.FromDollars(95m)));
    }

    [Fact]
    public async Task A_code_that_is_taken_is_refused_in_words()
    {
        var owner = await office.SignInAsOwnerAsync();
        Dictionary<string, string> typed = new() { ["Input.Code"] = "TWICE", ["Input.Name"] = "A" };
        await owner.SubmitAsync("/shop/prices/new", typed);
        Assert.Contains("Another item has the code TWICE", await (await owner.SubmitAsync("/shop/prices/new", typed)).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task How_a_design_takes_an_item_goes_in_by_form_and_out_and_in_again_by_file_unchanged()
    {
        var owner = await office.SignInAsOwnerAsync();
        Dictionary<string, string> typed = new()
        {
            ["Input.Code"] = "LARGER-T", ["Input.Name"] = "Larger pipe", ["Input.Use"] = "AddOn", ["Input.TakenBy"] = "PipeFoot", ["Input.PipeSize"] = "6in", ["Input.FanModel"] = "Test 9",
            ["Input.FromTier"] = "2", ["Input.OfferedFor"] = "LargerPipe", ["Input.RecommendedFrom"] = "25",
        };
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync("/shop/prices/new", typed)).StatusCode);
        var kept = await office.WithDbAsync(db => db.PriceItems.AsNoTracking().SingleAsync(p => p.Code == "LARGER-T"));
        Assert.Equal((TakenBy.PipeFoot, "6in", "Test 9", 2, OfferReason.LargerPipe, 25m), (kept.TakenBy, kept.PipeSize, kept.FanModel, kept.FromTier, kept.OfferedFor, kept.RecommendedFrom));
        Assert.Contains("when the pipe takes much of the pressure", await owner.TextAsync("/shop/prices"), StringComparison.Ordinal);
        var file = await owner.GetStringAsync("/shop/prices?handler=File");
        Assert.Contains(",pipefoot,6in,Test 9,2,largerpipe,25,\r\n", file, StringComparison.Ordinal);
        Assert.Equal((0, 0), await office.WithDbAsync(db => PriceBookFile.ApplyAsync(db, PriceBookFile.Read(file))));
        var again = await owner.SubmitAsync($"/shop/prices/{kept.Id}", new() { ["Input.Name"] = "Larger pipe, changed" });
        Assert.Equal(HttpStatusCode.Redirect, again.StatusCode);
        var after = await office.WithDbAsync(db => db.PriceItems.AsNoTracking().SingleAsync(p => p.Code == "LARGER-T"));
        Assert.Equal((2, 25m, "Larger pipe, changed"), (after.FromTier, after.RecommendedFrom, after.Name));
        // A file that only has prices changes only prices.
        Assert.Equal((0, 1), await office.WithDbAsync(db => PriceBookFile.ApplyAsync(db, PriceBookFile.Read("code,name,kind,cost\r\nLARGER-T,Larger pipe,material,9\r\n"))));
        after = await office.WithDbAsync(db => db.PriceItems.AsNoTracking().SingleAsync(p => p.Code == "LARGER-T"));
        Assert.Equal((2, 25m, "Test 9", OfferReason.LargerPipe, 900), (after.FromTier, after.RecommendedFrom, after.FanModel, after.OfferedFor, after.Cost.Cents));
    }

    [Fact]
    public async Task An_item_s_own_rule_is_kept_refused_by_line_and_goes_back_to_that_of_its_kind()
    {
        var owner = await office.SignInAsOwnerAsync();
        const string rule = "offered, recommended when animals is yes: They nest here.\r\nnot offered";
        Dictionary<string, string> typed = new() { ["Input.Code"] = "NEST", ["Input.Name"] = "Nest guard", ["Input.Use"] = "AddOn", ["Input.OwnRule"] = "offered when dayz > 3\r\noffered when days_at_risk > 3o" };
        var refused = await owner.SubmitAsync("/shop/prices/new", typed);
        var text = await refused.TextAsync();
        Assert.Contains("Line 1 of the rule: there is no fact “dayz”.", text, StringComparison.Ordinal);
        Assert.Contains("Line 2 of the rule: “3o” is no number", text, StringComparison.Ordinal);
        Assert.Contains("offered when dayz", text, StringComparison.Ordinal);
        typed["Input.OwnRule"] = rule;
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync("/shop/prices/new", typed)).StatusCode);
        var kept = await office.WithDbAsync(db => db.PriceItems.AsNoTracking().SingleAsync(p => p.Code == "NEST"));
        Assert.Equal(rule.Replace("\r", "", StringComparison.Ordinal), kept.OwnRule);
        await owner.SubmitAsync($"/shop/prices/{kept.Id}", new() { ["Input.OwnRule"] = "" });
        Assert.Equal("", await office.WithDbAsync(db => db.PriceItems.Where(p => p.Code == "NEST").Select(p => p.OwnRule).SingleAsync()));
        Assert.Contains("its rule: that of its kind again", await owner.TextAsync("/shop/prices/history"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_larger_pipe_without_its_size_and_a_limit_in_words_are_refused()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/prices/new", new() { ["Input.Code"] = "L2", ["Input.Name"] = "Larger", ["Input.OfferedFor"] = "LargerPipe", ["Input.RecommendedFrom"] = "often" });
        var text = await answer.TextAsync();
        Assert.Contains("A larger pipe needs its size.", text, StringComparison.Ordinal);
        Assert.Contains("Write the limit as a number", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_form_sent_twice_makes_one_item()
    {
        var owner = await office.SignInAsOwnerAsync();
        Dictionary<string, string> typed = new() { ["Input.Code"] = "ONCE", ["Input.Name"] = "Once", ["_once"] = "one-and-the-same" };
        var first = await owner.SubmitAsync("/shop/prices/new", typed);
        var second = await owner.SubmitAsync("/shop/prices/new", typed);
        Assert.Equal(first.Headers.Location, second.Headers.Location);
        Assert.Equal(1, await office.WithDbAsync(db => db.PriceItems.CountAsync(p => p.Code == "ONCE")));
    }

    [Fact]
    public async Task A_fan_whose_curve_rises_is_refused_and_keeps_its_points()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/fans/new", Fan("Riser", ("0", "1.0", "20"), ("40", "1.2", "22"), ("80", "0.2", "25")));
        var text = await answer.TextAsync();
        Assert.Contains("the static pressure must fall as the flow rises", text, StringComparison.Ordinal);
        Assert.Contains("value=\"1.2\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_negative_flow_is_refused()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/fans/new", Fan("Back", ("-5", "1.0", "20"), ("40", "0.6", "22"), ("80", "0.2", "25")));
        Assert.Contains("-5 is out of range", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_fan_goes_in_by_form_and_out_and_in_again_by_file_unchanged()
    {
        var owner = await office.SignInAsOwnerAsync();
        await owner.SubmitAsync("/shop/fans/new", Fan("Harrow 18", ("0", "1.9", "14"), ("40", "1.1", "17"), ("90", "0.1", "19")));
        var file = await owner.GetStringAsync("/shop/fans?handler=File");
        Assert.Contains("Harrow 18,,4in,0.00,,5,8,40,1.1,17\r\n", file, StringComparison.Ordinal);
        var again = await owner.SubmitAsync("/shop/import?kind=fans", new() { ["text"] = file }, button: "button[value=try]");
        Assert.Contains("every line right", await again.TextAsync(), StringComparison.Ordinal);
        var (added, changed) = await office.WithDbAsync(db => FanFile.ApplyAsync(db, FanFile.Read(file).Fans));
        Assert.Equal((0, 0), (added, changed));
    }

    [Fact]
    public async Task A_bad_file_names_every_bad_line_and_changes_nothing()
    {
        var owner = await office.SignInAsOwnerAsync();
        var before = await office.WithDbAsync(db => db.PriceItems.CountAsync());
        const string File = "code,name,kind,cost\r\nX1,Good,material,3\r\nX2,,material,3\r\nX3,Bad cost,material,lots\r\nX4,=cmd(),banana,1\r\n";
        var answer = await owner.PostFormAsync("/shop/import?kind=prices", File, "read");
        var text = await answer.TextAsync();
        Assert.Contains("Line 3: “name” is empty.", text, StringComparison.Ordinal);
        Assert.Contains("Line 4: Write the cost as a number", text, StringComparison.Ordinal);
        Assert.Contains("Line 5: “name” begins with =", text, StringComparison.Ordinal);
        Assert.Contains("Line 5: “kind” must be one of", text, StringComparison.Ordinal);
        Assert.Equal(before, await office.WithDbAsync(db => db.PriceItems.CountAsync()));
    }

    [Fact]
    public async Task The_last_owner_cannot_be_taken_away()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/staff", new() { ["role"] = "Installer", ["act"] = "role", ["id"] = $"{await OwnerIdAsync()}" }, "td form");
        Assert.Contains("An office needs an owner", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_guessable_password_is_refused()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/staff", new()
        {
            ["Input.FullName"] = "New Person",
            ["Input.Email"] = "new@lanternridge.example",
            ["Input.Role"] = "Office",
            ["Input.Password"] = "Password123456",
        }, "form:has([name='Input.FullName'])");
        Assert.Contains("among the first ones that are guessed", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Licences_are_kept_row_by_row()
    {
        var owner = await office.SignInAsOwnerAsync();
        await owner.SubmitAsync("/shop/licences", new()
        {
            ["Rows[0].Holder"] = "Ada Quill",
            ["Rows[0].Number"] = "RM-1",
            ["Rows[0].IssuedBy"] = "State program",
            ["Rows[0].ExpiresOn"] = "12/31/2026",
        });
        var kept = await office.WithDbAsync(db => db.Licences.SingleAsync());
        Assert.Equal(new DateOnly(2026, 12, 31), kept.ExpiresOn);
    }

    private Task<int> OwnerIdAsync() => office.WithDbAsync(db => db.Users.Where(u => u.FullName == "Ada Quill").Select(u => u.Id).SingleAsync());

    private static Dictionary<string, string> Fan(string model, params (string Flow, string Pressure, string Watts)[] points)
    {
        Dictionary<string, string> typed = new() { ["Input.Model"] = model };
        for (var i = 0; i < points.Length; i++)
            (typed[$"Input.Points[{i}].Flow"], typed[$"Input.Points[{i}].Pressure"], typed[$"Input.Points[{i}].Watts"]) = points[i];
        return typed;
    }
}

internal static class ShopVerbs
{
    /// <summary>Sends the import form's lines with a given act, as a hand-made request would.</summary>
    public static Task<HttpResponseMessage> PostFormAsync(this HttpClient client, string url, string lines, string act) =>
        client.SubmitAsync(url, new() { ["text"] = lines, ["act"] = act });
}
