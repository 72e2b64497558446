using System.Globalization;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Shop.Offers;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Shop;

[Authorize(SignInSetup.OwnerOnly)]
public sealed class PriceModel(OfficeDb db) : PageModel
{
    public sealed class Form
    {
        public string? Code { get; set; }
        public string? Name { get; set; }
        public PriceKind Kind { get; set; }
        public PriceUse Use { get; set; }
        public string? Unit { get; set; } = "each";
        public string? Cost { get; set; }
        public PriceRule Rule { get; set; }
        public string? MarkupPercent { get; set; }
        public string? FixedPrice { get; set; }
        public string? LabourMinutes { get; set; }
        public bool Taxable { get; set; }
        public string? Reason { get; set; }
        public TakenBy TakenBy { get; set; }
        public string? PipeSize { get; set; }
        public string? FanModel { get; set; }
        public string? FromTier { get; set; } = "1";
        public OfferReason OfferedFor { get; set; }
        public string? RecommendedFrom { get; set; }
        public string? OwnRule { get; set; }
        public bool Retired { get; set; }
    }

    [BindProperty]
    public Form Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [FromRoute(Name = "id")]
    public string Wanted { get; set; } = "";
    public CompanyProfile Company { get; private set; } = new();
    public bool IsNew => Wanted == "new";
    private int ItemId => int.TryParse(Wanted, CultureInfo.InvariantCulture, out var id) ? id : 0;

    public async Task<IActionResult> OnGetAsync()
    {
        Company = await db.Company.AsNoTracking().SingleAsync();
        if (IsNew) return Page();
        if (!await db.PriceItems.AnyAsync(p => p.Id == ItemId)) return NotFound();
        (Input, Version) = await ReadAsync();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var item = IsNew ? new PriceItem { Code = "", Name = "" } : await db.PriceItems.FindAsync(ItemId);
        if (item is null) return NotFound();
        Company = await db.Company.AsNoTracking().SingleAsync();
        var code = (Input.Code ?? "").Trim();
        if (await db.PriceItems.AnyAsync(p => p.Id != item.Id && p.Code == code)) ModelState.AddModelError("Input.Code", $"Another item has the code {code}. Choose a different one.");
        Write(item, new FormReading(ModelState, nameof(Input), UnitSystem.US));
        if (!ModelState.IsValid) return Page();
        if (IsNew) db.Add(item);
        else db.Expect(item, Version);
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? RedirectToPage("/Shop/Prices") : Page();
    }

    private void Write(PriceItem item, FormReading read)
    {
        item.Code = read.Text(Input.Code, nameof(Form.Code), "code", needed: true, most: 40);
        item.Name = read.Text(Input.Name, nameof(Form.Name), "item's name", needed: true, most: 200);
        (item.Kind, item.Use, item.Rule, item.Taxable, item.Retired) = (Input.Kind, Input.Use, Input.Rule, Input.Taxable, Input.Retired);
        item.Unit = read.Text(Input.Unit, nameof(Form.Unit), "unit", most: 20) is { Length: > 0 } unit ? unit : "each";
        item.Cost = read.Money(Input.Cost, nameof(Form.Cost), "cost") ?? Money.Zero;
        item.MarkupPercent = read.Number(Input.MarkupPercent, nameof(Form.MarkupPercent), "markup", 0, 1000) ?? 0;
        if (item.Rule == PriceRule.Margin && item.MarkupPercent > PriceItem.MostMarginPercent) read.Refuse(nameof(Form.MarkupPercent), $"A margin is at most {Plain(PriceItem.MostMarginPercent)} % of the price.");
        item.FixedPrice = read.Money(Input.FixedPrice, nameof(Form.FixedPrice), "fixed price", needed: Input.Rule == PriceRule.Fixed) ?? Money.Zero;
        item.LabourMinutes = read.Whole(Input.LabourMinutes, nameof(Form.LabourMinutes), "number of minutes", 0, 100_000) ?? 0;
        item.Reason = read.Text(Input.Reason, nameof(Form.Reason), "reason", most: 2000);
        WriteTaking(item, read);
        foreach (var (field, text) in new[] { (nameof(Form.Code), item.Code), (nameof(Form.Name), item.Name), (nameof(Form.Reason), item.Reason), (nameof(Form.FanModel), item.FanModel) })
            if (Csv.LooksComputed(text)) read.Refuse(field, "Begin it with a letter or a digit: a spreadsheet would compute it.");
    }

    private void WriteTaking(PriceItem item, FormReading read)
    {
        (item.TakenBy, item.OfferedFor) = (Input.TakenBy, Input.OfferedFor);
        item.PipeSize = read.Text(Input.PipeSize, nameof(Form.PipeSize), "pipe size", most: 20);
        item.FanModel = read.Text(Input.FanModel, nameof(Form.FanModel), "fan's model", most: 100);
        item.FromTier = read.Whole(Input.FromTier, nameof(Form.FromTier), "choice it is part of", 0, 3) ?? 0;
        item.RecommendedFrom = read.Number(Input.RecommendedFrom, nameof(Form.RecommendedFrom), "limit", -100, 10_000);
        item.OwnRule = ShippedRules.Kept(read.Text(Input.OwnRule, nameof(Form.OwnRule), "rule", most: ReadOfferRule.LongestText));
        if (item.OwnRule.Length > 0)
            foreach (var problem in ReadOfferRule.Of(item.OwnRule).Problems) read.Refuse(nameof(Form.OwnRule), problem);
        if (item.PipeSize.Length > 0 && PriceWords.PipeSizes.All(s => s.Value != item.PipeSize)) read.Refuse(nameof(Form.PipeSize), "Choose a pipe size of the list.");
        if (item.OfferedFor == OfferReason.LargerPipe && item.PipeSize.Length == 0) read.Refuse(nameof(Form.PipeSize), "A larger pipe needs its size.");
    }

    private async Task<(Form, int)> ReadAsync()
    {
        var p = await db.PriceItems.AsNoTracking().SingleAsync(x => x.Id == ItemId);
        return (new Form
        {
            Code = p.Code,
            Name = p.Name,
            Kind = p.Kind,
            Use = p.Use,
            Unit = p.Unit,
            Cost = Plain(p.Cost),
            Rule = p.Rule,
            MarkupPercent = Plain(p.MarkupPercent),
            FixedPrice = Plain(p.FixedPrice),
            LabourMinutes = Plain((decimal)p.LabourMinutes),
            Taxable = p.Taxable,
            Reason = p.Reason,
            TakenBy = p.TakenBy,
            PipeSize = p.PipeSize,
            FanModel = p.FanModel,
            FromTier = Plain((decimal)p.FromTier),
            OfferedFor = p.OfferedFor,
            RecommendedFrom = p.RecommendedFrom is { } from ? Plain(from) : "",
            OwnRule = p.OwnRule,
            Retired = p.Retired,
        }, p.Version);
    }
}
