using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>What every kind of field shares: label above, hint and refusal beside, the value as it was typed.</summary>
public abstract class FieldParts : TagHelper
{
    [HtmlAttributeName("for")]
    public ModelExpression For { get; set; } = null!;
    public string Label { get; set; } = "";
    public string? Hint { get; set; }
    public bool Optional { get; set; }

    [HtmlAttributeNotBound]
    [ViewContext]
    public ViewContext ViewContext { get; set; } = null!;

    protected string Name => ViewContext.ViewData.TemplateInfo.GetFullHtmlFieldName(For.Name);
    protected string Id => TagBuilder.CreateSanitizedId(Name, "_");

    protected string? Refusal =>
        ViewContext.ViewData.ModelState.TryGetValue(Name, out var entry) && entry.Errors.Count > 0 ? entry.Errors[0].ErrorMessage : null;

    protected string Typed =>
        ViewContext.ViewData.ModelState.TryGetValue(Name, out var entry) && entry.AttemptedValue is { } attempted
            ? attempted
            : Convert.ToString(For.Model, CultureInfo.InvariantCulture) ?? "";

    protected void Wrap(TagHelperOutput output, TagBuilder control, string kind)
    {
        output.TagName = "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", Refusal is null ? $"field {kind}" : $"field {kind} refused");
        var label = new TagBuilder("label");
        label.Attributes["for"] = Id;
        label.InnerHtml.Append(Label);
        if (Optional) label.InnerHtml.AppendHtml(Small(" (optional)"));
        output.Content.AppendHtml(label);
        var told = new List<string>();
        if (Hint is not null) output.Content.AppendHtml(Told("hint", Hint, told));
        if (Refusal is { } words) output.Content.AppendHtml(Told("refusal", words, told));
        if (told.Count > 0) control.Attributes["aria-describedby"] = string.Join(' ', told);
        if (Refusal is not null) control.Attributes["aria-invalid"] = "true";
        control.Attributes["id"] = Id;
        control.Attributes["name"] = Name;
        output.Content.AppendHtml(control);
    }

    private static TagBuilder Small(string words)
    {
        var span = new TagBuilder("span");
        span.AddCssClass("soft");
        span.InnerHtml.Append(words);
        return span;
    }

    private TagBuilder Told(string kind, string words, List<string> told)
    {
        var paragraph = new TagBuilder("p");
        paragraph.AddCssClass(kind);
        paragraph.Attributes["id"] = $"{Id}-{kind}";
        paragraph.InnerHtml.Append(words);
        told.Add($"{Id}-{kind}");
        return paragraph;
    }
}

/// <summary>A line of text: <c>&lt;field for="Input.Street" label="Street" /&gt;</c>, with a unit beside it where it is a measure.</summary>
[HtmlTargetElement("field", TagStructure = TagStructure.WithoutEndTag)]
public sealed class FieldTagHelper : FieldParts
{
    public string Type { get; set; } = "text";
    public string? Unit { get; set; }
    public string? Autocomplete { get; set; }
    public string? Inputmode { get; set; }

    /// <summary>How wide the answer is expected to be: "short", "middle" or "long".</summary>
    public string Width { get; set; } = "long";
    public int Most { get; set; } = 500;
    public string? List { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var input = new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing };
        input.Attributes["type"] = Type;
        if (Type != "password") input.Attributes["value"] = Typed;
        input.Attributes["maxlength"] = Most.ToString(CultureInfo.InvariantCulture);
        input.AddCssClass(Width);
        if (Autocomplete is not null) input.Attributes["autocomplete"] = Autocomplete;
        if (Inputmode is not null) input.Attributes["inputmode"] = Inputmode;
        if (List is not null) input.Attributes["list"] = List;
        if (Type == "email") input.Attributes["spellcheck"] = "false";
        Wrap(output, input, "line");
        if (Unit is null) return;
        var unit = new TagBuilder("span");
        unit.AddCssClass("unit");
        unit.InnerHtml.Append(Unit);
        output.Content.AppendHtml(unit);
    }
}

/// <summary>Several lines of text.</summary>
[HtmlTargetElement("words", TagStructure = TagStructure.WithoutEndTag)]
public sealed class WordsTagHelper : FieldParts
{
    public int Rows { get; set; } = 4;
    public int Most { get; set; } = 20_000;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var area = new TagBuilder("textarea");
        area.Attributes["rows"] = Rows.ToString(CultureInfo.InvariantCulture);
        area.Attributes["maxlength"] = Most.ToString(CultureInfo.InvariantCulture);
        area.InnerHtml.AppendHtml("\n").Append(Typed);
        Wrap(output, area, "words");
    }
}

/// <summary>One of a few: a list to choose from.</summary>
[HtmlTargetElement("choice", TagStructure = TagStructure.WithoutEndTag)]
public sealed class ChoiceTagHelper : FieldParts
{
    public IEnumerable<(string Value, string Words)> Options { get; set; } = [];

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var select = new TagBuilder("select");
        Fill(select, Options, Typed);
        Wrap(output, select, "choice");
    }

    internal static void Fill(TagBuilder select, IEnumerable<(string Value, string Words)> options, string chosen)
    {
        foreach (var (value, words) in options)
        {
            var option = new TagBuilder("option");
            option.Attributes["value"] = value;
            if (value == chosen) option.Attributes["selected"] = "selected";
            option.InnerHtml.Append(words);
            select.InnerHtml.AppendHtml(option);
        }
    }
}

/// <summary>A box to tick. The hidden twin makes "not ticked" arrive as false.</summary>
[HtmlTargetElement("tick", TagStructure = TagStructure.WithoutEndTag)]
public sealed class TickTagHelper : FieldParts
{
    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", Refusal is null ? "field tick" : "field tick refused");
        if (Refusal is { } words) output.Content.AppendHtml(Refused(words));
        var box = new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing };
        foreach (var (name, value) in new[] { ("type", "checkbox"), ("id", Id), ("name", Name), ("value", "true") }) box.Attributes[name] = value;
        if (Typed.StartsWith("true", StringComparison.OrdinalIgnoreCase)) box.Attributes["checked"] = "checked";
        if (Refusal is not null) (box.Attributes["aria-invalid"], box.Attributes["aria-describedby"]) = ("true", $"{Id}-refusal");
        var label = new TagBuilder("label");
        label.Attributes["for"] = Id;
        label.InnerHtml.Append(Label);
        output.Content.AppendHtml(box).AppendHtml(label);
        var twin = new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing };
        foreach (var (name, value) in new[] { ("type", "hidden"), ("name", Name), ("value", "false") }) twin.Attributes[name] = value;
        output.Content.AppendHtml(twin);
        if (Hint is null) return;
        var hint = new TagBuilder("p");
        hint.AddCssClass("hint");
        hint.InnerHtml.Append(Hint);
        output.Content.AppendHtml(hint);
    }

    private TagBuilder Refused(string words)
    {
        var paragraph = new TagBuilder("p");
        paragraph.AddCssClass("refusal");
        paragraph.Attributes["id"] = $"{Id}-refusal";
        paragraph.InnerHtml.Append(words);
        return paragraph;
    }
}

/// <summary>All refusals at the top, each a link to its field, and what another person changed meanwhile.</summary>
[HtmlTargetElement("refusals", TagStructure = TagStructure.WithoutEndTag)]
public sealed class RefusalsTagHelper : TagHelper
{
    /// <summary>Sentences for what was saved all the same.</summary>
    public IReadOnlyList<string> Saved { get; set; } = [];

    [HtmlAttributeNotBound]
    [ViewContext]
    public ViewContext ViewContext { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var state = ViewContext.ViewData.ModelState;
        if (state.IsValid || state.ErrorCount == 0)
        {
            output.SuppressOutput();
            return;
        }

        output.TagName = "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", "refusals");
        output.Attributes.SetAttribute("role", "alert");
        output.Attributes.SetAttribute("tabindex", "-1");
        output.Attributes.SetAttribute("id", "refusals");
        output.Content.AppendHtml(Saved.Count > 0 ? "<h2>Saved in part</h2>" : "<h2>Not saved yet</h2>");
        foreach (var words in Saved)
        {
            var paragraph = new TagBuilder("p");
            paragraph.InnerHtml.Append(words);
            output.Content.AppendHtml(paragraph);
        }

        if (Saved.Count > 0) output.Content.AppendHtml("<p>Not saved:</p>");
        var list = new TagBuilder("ul");
        foreach (var (key, entry) in state)
            foreach (var error in entry.Errors)
                list.InnerHtml.AppendHtml(Item(key, error.ErrorMessage));
        output.Content.AppendHtml(list);
    }

    private static TagBuilder Item(string key, string words)
    {
        var item = new TagBuilder("li");
        if (key.Length == 0)
        {
            item.InnerHtml.Append(words);
            return item;
        }

        var link = new TagBuilder("a");
        link.Attributes["href"] = "#" + TagBuilder.CreateSanitizedId(key, "_");
        link.InnerHtml.Append(words);
        item.InnerHtml.AppendHtml(link);
        return item;
    }
}

/// <summary>Marks a form so that sending it twice acts once.</summary>
[HtmlTargetElement("once", TagStructure = TagStructure.WithoutEndTag)]
public sealed class OnceTagHelper : TagHelper
{
    [HtmlAttributeNotBound]
    [ViewContext]
    public ViewContext ViewContext { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = "input";
        output.TagMode = TagMode.SelfClosing;
        output.Attributes.SetAttribute("type", "hidden");
        output.Attributes.SetAttribute("name", OneSending.Field);
        output.Attributes.SetAttribute("value", Convert.ToHexStringLower(System.Security.Cryptography.RandomNumberGenerator.GetBytes(16)));
    }
}
