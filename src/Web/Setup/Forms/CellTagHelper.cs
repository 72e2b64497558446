using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>A field in a cell of a table, its label unseen because the column's head says it:
/// <c>&lt;cell for="Input.Lines[i].Words" label="Words, line 1" /&gt;</c>.</summary>
[HtmlTargetElement("cell", TagStructure = TagStructure.WithoutEndTag)]
public sealed class CellTagHelper : FieldParts
{
    public string? Inputmode { get; set; }
    public string Width { get; set; } = "fill";
    public int Most { get; set; } = 500;

    /// <summary>A box to tick instead of a line of text.</summary>
    public bool Ticked { get; set; }

    /// <summary>A list to choose from instead of a line of text.</summary>
    public IEnumerable<(string Value, string Words)>? Options { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = "span";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", Refusal is null ? "cell" : "cell refused");
        if (Refusal is { } words) output.Content.AppendHtml(Told(words));
        output.Content.AppendHtml(Ticked ? Box() : Options is { } options ? List(options) : Line());
        if (Ticked) output.Content.AppendHtml(Twin());
    }

    private TagBuilder Line()
    {
        var input = Input("text", Typed);
        input.Attributes["maxlength"] = Most.ToString(CultureInfo.InvariantCulture);
        input.AddCssClass(Width);
        if (Inputmode is not null) input.Attributes["inputmode"] = Inputmode;
        return input;
    }

    private TagBuilder List(IEnumerable<(string Value, string Words)> options)
    {
        var select = new TagBuilder("select");
        ChoiceTagHelper.Fill(select, options, Typed);
        return Named(select);
    }

    private TagBuilder Box()
    {
        var box = Input("checkbox", "true");
        if (Typed.StartsWith("true", StringComparison.OrdinalIgnoreCase)) box.Attributes["checked"] = "checked";
        return box;
    }

    private TagBuilder Input(string type, string value)
    {
        var input = new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing };
        (input.Attributes["type"], input.Attributes["value"]) = (type, value);
        return Named(input);
    }

    private TagBuilder Named(TagBuilder input)
    {
        foreach (var (key, content) in new[] { ("id", Id), ("name", Name), ("aria-label", Label) }) input.Attributes[key] = content;
        if (Refusal is not null) (input.Attributes["aria-invalid"], input.Attributes["aria-describedby"]) = ("true", $"{Id}-refusal");
        return input;
    }

    private TagBuilder Twin()
    {
        var twin = new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing };
        foreach (var (key, content) in new[] { ("type", "hidden"), ("name", Name), ("value", "false") }) twin.Attributes[key] = content;
        return twin;
    }

    private TagBuilder Told(string words)
    {
        var paragraph = new TagBuilder("span");
        paragraph.AddCssClass("refusal");
        paragraph.Attributes["id"] = $"{Id}-refusal";
        paragraph.InnerHtml.Append(words);
        return paragraph;
    }
}
