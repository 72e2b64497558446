namespace MitigationOffice.Business.Design.Files;

/// <summary>The range that a number of a design file must keep, or that a list's length must.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class WithinAttribute(double least, double most, string unit) : Attribute
{
    public double Least => least;
    public double Most => most;
    public string Unit => unit;
}
